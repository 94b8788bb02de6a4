// The door to the wire format (README.md beside this file): what crosses the air between counter and wearable is bytes,
// and these functions are all that knows how a message lies in them.
import { type FrameRefusal, kindOf } from './kinds.js';
import type { FrameName } from './messages.js';
import { headerOf } from './sealed-frames.js';
import { soundHeader } from './sound.js';

export { FRAME_REFUSALS, type FrameRefusal } from './kinds.js';
export { readPairing, writePairing } from './pairing-frames.js';
export { openMessage, type Secured, sealMessage } from './sealed-frames.js';

/** What a frame says of itself. Nobody vouches for it before the frame is opened. */
export interface Outside {
  readonly frame: FrameName;
  /** 0 for a frame of a pairing, as the sequence. */
  readonly link: number;
  readonly sequence: number;
}

/** What can be told of a frame without a key: enough to find the link whose key may open it. Never throws. */
export function peek(frame: Uint8Array): Outside | FrameRefusal {
  const kind = kindOf(frame);
  if (typeof kind === 'string') return kind;
  if (!kind.sealed) return { frame: kind.frame, link: 0, sequence: 0 };
  const { link, sequence } = headerOf(frame);
  return soundHeader(kind.frame, link, sequence) ? { frame: kind.frame, link, sequence } : 'malformed';
}
