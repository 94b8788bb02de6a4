// The latest frames over the air with what became of each: the sending event carries the content, and whatever happened
// to the frame names that event as its cause.
import type { TraceEvent } from './kinds.js';

/** So many frames are remembered; with four tools running that is about the last half minute. */
export const AIR_KEPT = 64;

export type SentEvent = Extract<TraceEvent, { kind: 'air.tally' | 'air.report' | 'air.ack' | 'air.pairing' }>;

/** Sent: still on its way. Heard: the device took it. */
export type Fate = 'sent' | 'heard' | 'lost' | 'refused';

export interface AirFrame {
  readonly sent: SentEvent;
  readonly fate: Fate;
  /** Why it was lost or refused, else ''. */
  readonly reason: string;
}

/** The frames after an event. */
export function afterAir(frames: readonly AirFrame[], event: TraceEvent): readonly AirFrame[] {
  switch (event.kind) {
    case 'air.tally':
    case 'air.report':
    case 'air.ack':
    case 'air.pairing':
      return [...frames.slice(1 - AIR_KEPT), { sent: event, fate: 'sent', reason: '' }];
    case 'air.heard':
      return settled(frames, event.cause, 'heard', '');
    case 'air.lost':
      return settled(frames, event.cause, 'lost', event.reason);
    case 'air.refused':
      return settled(frames, event.cause, 'refused', event.reason);
    default:
      return frames;
  }
}

/** A frame that was heard once has reached its device, whatever becomes of its duplicates. */
function settled(frames: readonly AirFrame[], n: number, fate: Fate, reason: string): readonly AirFrame[] {
  const index = frames.findLastIndex((one) => one.sent.n === n);
  const frame = frames[index];
  if (frame === undefined || frame.fate === 'heard') return frames;
  return frames.with(index, { ...frame, fate, reason });
}
