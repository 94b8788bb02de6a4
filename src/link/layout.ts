// The tables of the wire format: every field of every frame and its width in bits, in the order in which they are packed,
// most significant bit first. The codec reads its places from here; src/link/README.md holds the same tables for people.
// A tally, a report and an acknowledgement each fit one Bluetooth legacy advertisement with its header (TAL-1).

export type Layout = Readonly<Record<string, number>>;

export const VERSION = 1;

/** Most bytes of a sealed frame. */
const MAX_FRAME_BYTES = 27;
/** Most bytes of a frame of a pairing. */
const MAX_PAIRING_BYTES = 244;

/** What the first five bits of a frame say. Codes below 16 are of sealed frames; an accept has one code for each side. */
export const KIND_CODES = {
  tally: 1,
  report: 2,
  ack: 3,
  counterAccept: 4,
  wearableAccept: 5,
  hello: 16,
  answer: 17,
  nonce: 18,
  reveal: 19,
  refuse: 20,
} as const;

/** Of a sealed frame; then the body; then the tag. */
export const HEADER_BITS = { kind: 5, version: 3, link: 16, sequence: 32 } as const;
export const TAG_BITS = 32;

/** What is summed up over a session, or over several, in every frame and every record that has it. */
export const SUMS_BITS = { dose: 52, triggerWindows: 28, unratedWindows: 28 } as const;
/** ACC-2: where a number of windows stands still. */
export const MAX_WINDOWS = largest(SUMS_BITS.triggerWindows);

export const TALLY_BITS = {
  ...SUMS_BITS,
  magnitudeTenths: 9,
  cell: 2,
  flags: 9,
} as const;

export const REPORT_BITS = {
  shortBursts: 16,
  powerLosses: 16,
  unclaimedDose: 52,
  unclaimedWindows: 28,
  reserved: 16,
} as const;

export const ACKNOWLEDGEMENT_BITS = {
  highest: 32,
  highestReport: 32,
  level: 3,
  closed: 1,
  reserved: 4,
  leftTenths: 16,
} as const;

export const ACCEPT_BITS = { counter: 16, wearable: 16 } as const;

/** What a sealed frame is sealed with, beside its key: never twice the same under one key (TAL-2). */
export const NONCE_BITS = { direction: 8, link: 16, session: 32, sequence: 32, zero: 16 } as const;

/** Of a frame of a pairing, which has no key yet; then the body; then a CRC-32. */
export const PAIRING_HEADER_BITS = { kind: 5, version: 3 } as const;
export const CHECKSUM_BITS = 32;

export const HELLO_BITS = { counter: 16, wearable: 16, publicKey: 256 } as const;

export const ANSWER_BITS = {
  counter: 16,
  wearable: 16,
  link: 16,
  session: 32,
  publicKey: 256,
  commitment: 128,
} as const;

/** Of a nonce and of a reveal. */
export const PAIRING_NONCE_BITS = { counter: 16, wearable: 16, nonce: 128 } as const;

export const REFUSE_BITS = { counter: 16, wearable: 16, reason: 8 } as const;

/** What both sides of a pairing know of it in the end: digits and key come from this. */
export const TRANSCRIPT_BITS = {
  counter: 16,
  wearable: 16,
  link: 16,
  session: 32,
  counterKey: 256,
  wearableKey: 256,
  counterNonce: 128,
  wearableNonce: 128,
} as const;

/** Bytes of a whole sealed frame with this body. Throws where they are more than MAX_FRAME_BYTES. */
export function frameBytes(body: Layout): number {
  return atMost(MAX_FRAME_BYTES, bytesOf(HEADER_BITS) + bytesOf(body) + TAG_BITS / 8);
}

/** Bytes of a whole frame of a pairing with this body. Throws where they are more than MAX_PAIRING_BYTES. */
export function pairingBytes(body: Layout): number {
  return atMost(MAX_PAIRING_BYTES, bytesOf(PAIRING_HEADER_BITS) + bytesOf(body) + CHECKSUM_BITS / 8);
}

function atMost(most: number, bytes: number): number {
  if (bytes > most) throw new Error(`a frame of ${bytes} bytes is longer than ${most}`);
  return bytes;
}

/** What is laid out fills whole bytes, or is wrong. */
export function bytesOf(layout: Layout): number {
  const bits = Object.values(layout).reduce((sum, width) => sum + width, 0);
  if (bits % 8 !== 0) throw new Error(`${bits} bits do not fill whole bytes`);
  return bits / 8;
}

/** Largest value of a field of so many bits, up to 53. */
export function largest(bits: number): number {
  return 2 ** bits - 1;
}
