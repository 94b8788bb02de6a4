// What the first byte of a frame and its length say: which kind it is, or why it is none.
import {
  ACCEPT_BITS,
  ACKNOWLEDGEMENT_BITS,
  ANSWER_BITS,
  frameBytes,
  HELLO_BITS,
  KIND_CODES,
  PAIRING_NONCE_BITS,
  pairingBytes,
  REFUSE_BITS,
  REPORT_BITS,
  TALLY_BITS,
  VERSION,
} from './layout.js';

/** Why bytes are no message. What can be told without a key is looked at first; README.md gives the order. */
export const FRAME_REFUSALS = ['length', 'version', 'kind', 'malformed', 'checksum', 'tag'] as const;
export type FrameRefusal = (typeof FRAME_REFUSALS)[number];

/** The first byte of a nonce. */
const FROM_COUNTER = 0;
const FROM_WEARABLE = 1;

export const SEALED = {
  tally: sealed('tally', KIND_CODES.tally, FROM_COUNTER, frameBytes(TALLY_BITS)),
  report: sealed('report', KIND_CODES.report, FROM_COUNTER, frameBytes(REPORT_BITS)),
  ack: sealed('ack', KIND_CODES.ack, FROM_WEARABLE, frameBytes(ACKNOWLEDGEMENT_BITS)),
  counterAccept: sealed('accept', KIND_CODES.counterAccept, FROM_COUNTER, frameBytes(ACCEPT_BITS)),
  wearableAccept: sealed('accept', KIND_CODES.wearableAccept, FROM_WEARABLE, frameBytes(ACCEPT_BITS)),
} as const;

export const CLEAR = {
  hello: clear('hello', KIND_CODES.hello, pairingBytes(HELLO_BITS)),
  answer: clear('answer', KIND_CODES.answer, pairingBytes(ANSWER_BITS)),
  nonce: clear('nonce', KIND_CODES.nonce, pairingBytes(PAIRING_NONCE_BITS)),
  reveal: clear('reveal', KIND_CODES.reveal, pairingBytes(PAIRING_NONCE_BITS)),
  refuse: clear('refuse', KIND_CODES.refuse, pairingBytes(REFUSE_BITS)),
} as const;

export type SealedKind = (typeof SEALED)[keyof typeof SEALED];
export type ClearKind = (typeof CLEAR)[keyof typeof CLEAR];
export type Kind = SealedKind | ClearKind;

const BY_CODE: readonly (Kind | undefined)[] = Array.from({ length: 32 }, (_, code) =>
  [...Object.values(SEALED), ...Object.values(CLEAR)].find((kind) => kind.code === code),
);

/** The kind of a frame whose version is known and whose length is that kind's. */
export function kindOf(frame: Uint8Array): Kind | FrameRefusal {
  const first = frame[0];
  if (first === undefined) return 'length';
  if ((first & 0b111) !== VERSION) return 'version';
  const kind = BY_CODE[first >>> 3];
  if (kind === undefined) return 'kind';
  return frame.length === kind.bytes ? kind : 'length';
}

function sealed<F extends string>(frame: F, code: number, direction: number, bytes: number) {
  return { sealed: true, frame, code, direction, bytes } as const;
}

function clear<F extends string>(frame: F, code: number, bytes: number) {
  return { sealed: false, frame, code, bytes } as const;
}
