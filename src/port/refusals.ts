// Why a device drops a frame that arrived (TAL-4, TAL-7). Each drop is counted under one of these.
import { FRAME_REFUSALS } from '../link/frames.js';

export const REFUSALS = [
  ...FRAME_REFUSALS,
  /** Sealed for a link that is none of this device's, or spoken to another. */
  'foreign',
  /** A kind of frame that such a device never takes. */
  'unexpected',
  /** A sequence number that was passed, or an acknowledgement of before the last start. */
  'replayed',
  /** Too many wrong tags within the minute. */
  'throttled',
  /** Dose that rises faster than any tool makes it (TAL-7). */
  'implausible',
  /** A second key or nonce within one pairing, or one that no secret can be agreed on with. */
  'changed',
  /** A nonce that is not the one committed to. */
  'commitment',
] as const;

export type Refusal = (typeof REFUSALS)[number];
