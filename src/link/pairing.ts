// What both sides of a pairing compute from the frames that crossed (PAI-1, PAI-2): the commitment, the four digits that the
// person compares, and the key. A middleman has one guess: README.md beside this file says why.

import { placesOf, putBytes, putNumber, sheetOf } from './bits.js';
import type { Cipher } from './cipher.js';
import { bytesOf, TRANSCRIPT_BITS } from './layout.js';

/** What both sides know of a pairing once all is revealed. Keys are public ones of 32 bytes, nonces have 16. */
export interface Transcript {
  readonly counter: number;
  readonly wearable: number;
  readonly link: number;
  readonly session: number;
  readonly counterKey: Uint8Array;
  readonly wearableKey: Uint8Array;
  readonly counterNonce: Uint8Array;
  readonly wearableNonce: Uint8Array;
}

/** Each hash and key begins with a label of its own, none of which begins another. */
const COMMITMENT_LABEL = ascii('counterproof 1 commitment');
const DIGITS_LABEL = ascii('counterproof 1 digits');
const KEY_LABEL = ascii('counterproof 1 key');

const COMMITMENT_BYTES = 16;
const KEY_BYTES = 16;
const DIGITS = 10_000;
const TRANSCRIPT = placesOf(TRANSCRIPT_BITS);

/** What the counter commits to before it has seen the wearable's nonce, which holds it to its own: 16 bytes. */
export function commitmentOf(
  cipher: Cipher,
  counterKey: Uint8Array,
  wearableKey: Uint8Array,
  counterNonce: Uint8Array,
): Uint8Array {
  return cipher.hash(joined(COMMITMENT_LABEL, counterKey, wearableKey, counterNonce)).slice(0, COMMITMENT_BYTES);
}

/**
 * 0..9999: the first four bytes of a hash of the transcript, modulo 10 000. 2^32 is no multiple of it: 0 to 7295 come up
 * 429 497 times in 2^32 and the rest 429 496 times, so the best guess is right with 1.00000063 in 10 000.
 */
export function comparisonDigits(cipher: Cipher, transcript: Transcript): number {
  const [first, second, third, fourth] = cipher.hash(joined(DIGITS_LABEL, bytesOfTranscript(transcript)));
  return (((first! << 24) | (second! << 16) | (third! << 8) | fourth!) >>> 0) % DIGITS;
}

/** The key of the link, 16 bytes, from the shared secret. Both nonces salt it, so that it is fresh with every pairing. */
export function sessionKey(cipher: Cipher, shared: Uint8Array, transcript: Transcript): Uint8Array {
  const salt = joined(transcript.counterNonce, transcript.wearableNonce);
  return cipher.derive(shared, salt, joined(KEY_LABEL, bytesOfTranscript(transcript)), KEY_BYTES);
}

function bytesOfTranscript(transcript: Transcript): Uint8Array {
  const sheet = sheetOf(bytesOf(TRANSCRIPT_BITS));
  putNumber(sheet, TRANSCRIPT.counter, transcript.counter);
  putNumber(sheet, TRANSCRIPT.wearable, transcript.wearable);
  putNumber(sheet, TRANSCRIPT.link, transcript.link);
  putNumber(sheet, TRANSCRIPT.session, transcript.session);
  putBytes(sheet, TRANSCRIPT.counterKey, transcript.counterKey);
  putBytes(sheet, TRANSCRIPT.wearableKey, transcript.wearableKey);
  putBytes(sheet, TRANSCRIPT.counterNonce, transcript.counterNonce);
  putBytes(sheet, TRANSCRIPT.wearableNonce, transcript.wearableNonce);
  return sheet.bytes;
}

function joined(...parts: readonly Uint8Array[]): Uint8Array {
  return Buffer.concat(parts);
}

function ascii(text: string): Uint8Array {
  return Buffer.from(text, 'ascii');
}
