// The latest frames over the air with what became of each: the sending event carries the content, and whatever happened
// to the frame names that event as its cause.
import type { TraceEvent } from './kinds.js';

/** So many frames are remembered; with four tools running that is about the last half minute. */
export const AIR_KEPT = 64;

export type SentEvent = Extract<
  TraceEvent,
  { kind: 'air.tally' | 'air.report' | 'air.ack' | 'air.pairing' | 'air.injected' }
>;

/** Sent: still on its way. Heard: the device took it. */
export type Fate = 'sent' | 'heard' | 'lost' | 'refused';

export interface AirFrame {
  readonly sent: SentEvent;
  readonly fate: Fate;
  /** Why it was lost or refused, else ''. */
  readonly reason: string;
  /** Events that say it was heard: more than one where it was doubled on its way. */
  readonly heard: readonly number[];
}

/** The frames after an event. */
export function afterAir(frames: readonly AirFrame[], event: TraceEvent): readonly AirFrame[] {
  switch (event.kind) {
    case 'air.tally':
    case 'air.report':
    case 'air.ack':
    case 'air.pairing':
    case 'air.injected':
      return [...frames.slice(1 - AIR_KEPT), { sent: event, fate: 'sent', reason: '', heard: [] }];
    case 'air.heard':
      return changed(frames, event.cause, (frame) => ({ ...frame, fate: 'heard', heard: [...frame.heard, event.n] }));
    case 'air.lost':
      return changed(frames, event.cause, (frame) => ({ ...frame, fate: 'lost', reason: event.reason }));
    case 'air.refused':
      return changed(frames, event.cause, (frame) => refused(frame, event.reason));
    default:
      return frames;
  }
}

/** What becomes of a frame is caused by its being sent; its refusal by its being heard. */
function changed(
  frames: readonly AirFrame[],
  cause: number,
  change: (frame: AirFrame) => AirFrame,
): readonly AirFrame[] {
  const index = frames.findLastIndex(({ sent, heard }) => sent.n === cause || heard.includes(cause));
  const frame = frames[index];
  return frame === undefined ? frames : frames.with(index, change(frame));
}

/** Where the first of several copies was taken, the refusal of another changes nothing. */
function refused(frame: AirFrame, reason: string): AirFrame {
  return frame.heard.length > 1 && frame.fate === 'heard' ? frame : { ...frame, fate: 'refused', reason };
}
