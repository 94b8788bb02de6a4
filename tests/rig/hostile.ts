// Frames that no honest device sends, made from ones that were sent.

import type { Cipher } from '../../src/link/cipher.js';
import { crc32 } from '../../src/link/crc32.js';
import type { Secured } from '../../src/link/frames.js';
import { KIND_CODES } from '../../src/link/layout.js';

const HEADER_BYTES = 7;
const TAG_BYTES = 4;
const NONCE_BYTES = 13;

/** The frame with one byte changed by these bits. */
export function changed(frame: Uint8Array, at: number, bits: number): Uint8Array {
  const copy = frame.slice();
  copy[at]! ^= bits;
  return copy;
}

/** A clear frame with one byte changed by these bits, and a checksum that is right for it. */
export function rewritten(frame: Uint8Array, at: number, bits: number): Uint8Array {
  const copy = changed(frame, at, bits);
  const end = copy.length - TAG_BYTES;
  new DataView(copy.buffer).setUint32(end, crc32(copy.subarray(0, end)));
  return copy;
}

/** A sealed frame with one byte of its body changed by these bits, and sealed rightly by somebody who has the key. */
export function resealed(cipher: Cipher, secured: Secured, frame: Uint8Array, at: number, bits: number): Uint8Array {
  const header = frame.slice(0, HEADER_BYTES);
  const nonce = nonceOf(header, secured.session);
  const body = cipher.open(secured.key, nonce, header, frame.slice(HEADER_BYTES));
  if (body === null) throw new Error('this was not sealed with that');
  return Uint8Array.of(...header, ...cipher.seal(secured.key, nonce, header, changed(body, at, bits)));
}

/** Direction, link, session, sequence, two zeros. */
function nonceOf(header: Uint8Array, session: number): Uint8Array {
  const nonce = new Uint8Array(NONCE_BYTES);
  const kind = header[0]! >>> 3;
  nonce[0] = kind === KIND_CODES.ack || kind === KIND_CODES.wearableAccept ? 1 : 0;
  nonce.set(header.subarray(1, 3), 1);
  new DataView(nonce.buffer).setUint32(3, session);
  nonce.set(header.subarray(3), 7);
  return nonce;
}
