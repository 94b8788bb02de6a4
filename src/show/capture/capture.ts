// A day's air as a capture file: every frame that was sent, as it was sent, with what became of it as its comment. How the
// packets are laid out stands in src/link/README.md, under "Captures".
import { devicesOf, identityOf } from '../../trace/devices.js';
import type { TraceEvent } from '../../trace/kinds.js';
import { frameText } from './frame-text.js';
import { interfaceOf, packet, sectionHeader } from './pcapng.js';
import { type SentFrame, sentFrames } from './sent-frames.js';

/** For formats of one's own: LINKTYPE_USER0 of the registry of link-layer header types. */
const LINK_TYPE = 147;
/** Before each frame: the identities of its sender and of the one that it is meant for, 16 bits each. */
const PSEUDO_HEADER_BYTES = 4;

export interface Capture {
  /** The file, in pieces that follow one another. */
  readonly pieces: Iterable<Uint8Array>;
  readonly frames: number;
  /** Frames that arrived nowhere. */
  readonly unheard: number;
}

/** title: of the day; it is never part of a trace. */
export function captureOf(events: readonly TraceEvent[], title: string): Capture {
  const frames = sentFrames(events);
  return {
    pieces: piecesOf(frames, events, title),
    frames: frames.length,
    unheard: frames.filter(({ copies }) => copies.length === 0).length,
  };
}

function* piecesOf(frames: readonly SentFrame[], events: readonly TraceEvent[], title: string): Iterable<Uint8Array> {
  const devices = devicesOf(events);
  const fromMs = events.find((event) => event.kind === 'hand.day')?.fromMs ?? 0;
  yield sectionHeader('counterproof', `${title}. A simulated day: no device has sent these frames.`);
  yield interfaceOf(LINK_TYPE, 'air', 'between counters and wearables, 4 bytes of identities before each frame');
  for (const frame of frames) {
    const { by, to, at, bytes } = frame.sent;
    const frameBytes = Buffer.from(bytes, 'hex');
    const data = new Uint8Array(PSEUDO_HEADER_BYTES + frameBytes.length);
    const view = new DataView(data.buffer);
    view.setUint16(0, identityOf(devices, by));
    view.setUint16(2, identityOf(devices, to));
    data.set(frameBytes, PSEUDO_HEADER_BYTES);
    yield packet(fromMs + at, data, frameText(frame));
  }
}
