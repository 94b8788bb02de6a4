// What both sides of a pairing compute (PAI-1, PAI-2): commitment, digits, key.
import { createHash, hkdfSync } from 'node:crypto';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { CHIP, type Cipher, NO_KEYS } from '../../src/link/cipher.js';
import { commitmentOf, comparisonDigits, sessionKey, type Transcript } from '../../src/link/pairing.js';
import { counting, hex, toHex } from './hex.js';

const TRANSCRIPT: Transcript = {
  counter: 0x0102,
  wearable: 0x0304,
  link: 0x0506,
  session: 0x0708090a,
  counterKey: counting(0x10, 0x2f),
  wearableKey: counting(0x30, 0x4f),
  counterNonce: counting(0x50, 0x5f),
  wearableNonce: counting(0x60, 0x6f),
};
/** The same as README.md lays it out. */
const IN_BYTES = Uint8Array.of(...counting(0x01, 0x0a), ...counting(0x10, 0x6f));

const bytes = (length: number) => fc.uint8Array({ minLength: length, maxLength: length });
const ascii = (text: string) => Buffer.from(text, 'ascii');

/** The transcript with the first bit of one part changed. */
function changed(part: keyof Transcript): Transcript {
  const old = TRANSCRIPT[part];
  return {
    ...TRANSCRIPT,
    [part]: typeof old === 'number' ? old ^ 1 : old.map((byte, index) => (index === 0 ? byte ^ 1 : byte)),
  };
}

const PARTS = Object.keys(TRANSCRIPT) as (keyof Transcript)[];

test('the commitment is 16 bytes of SHA-256 over label, both keys and the counter’s nonce', () => {
  const data = Buffer.concat([ascii('counterproof 1 commitment'), counting(0x10, 0x5f)]);
  const due = createHash('sha256').update(data).digest('hex').slice(0, 32);
  expect(toHex(commitmentOf(CHIP, TRANSCRIPT.counterKey, TRANSCRIPT.wearableKey, TRANSCRIPT.counterNonce))).toBe(due);
});

test('the digits are the first four bytes of SHA-256 over label and transcript, modulo 10 000', () => {
  const due = createHash('sha256').update(ascii('counterproof 1 digits')).update(IN_BYTES).digest().readUInt32BE(0);
  expect(comparisonDigits(CHIP, TRANSCRIPT)).toBe(due % 10_000);
});

test('the key is HKDF-SHA-256 of the shared secret, salted with both nonces, told of label and transcript', () => {
  const info = Buffer.concat([ascii('counterproof 1 key'), IN_BYTES]);
  const due = Buffer.from(hkdfSync('sha256', counting(1, 32), counting(0x50, 0x6f), info, 16)).toString('hex');
  expect(toHex(sessionKey(CHIP, counting(1, 32), TRANSCRIPT))).toBe(due);
});

test.each<[string, Cipher]>([
  ['CHIP', CHIP],
  ['NO_KEYS', NO_KEYS],
])('%s: every part of the transcript sways digits and key, and the secret sways the key', (_, cipher) => {
  const digits = new Set([TRANSCRIPT, ...PARTS.map(changed)].map((transcript) => comparisonDigits(cipher, transcript)));
  // Two of nine may be the same by chance; for these nine, none are.
  expect(digits.size).toBe(1 + PARTS.length);
  const keys = [TRANSCRIPT, ...PARTS.map(changed)].map((transcript) =>
    toHex(sessionKey(cipher, counting(1, 32), transcript)),
  );
  expect(new Set([...keys, toHex(sessionKey(cipher, counting(2, 33), TRANSCRIPT))]).size).toBe(2 + PARTS.length);
  expect(sessionKey(cipher, counting(1, 32), TRANSCRIPT)).toHaveLength(16);
});

test.each<[string, Cipher]>([
  ['CHIP', CHIP],
  ['NO_KEYS', NO_KEYS],
])('%s: a commitment is to these keys and this nonce, and to nothing else', (_, cipher) => {
  fc.assert(
    fc.property(bytes(32), bytes(32), bytes(16), fc.nat(80 * 8 - 1), (counterKey, wearableKey, nonce, bit) => {
      const commitment = commitmentOf(cipher, counterKey, wearableKey, nonce);
      expect(commitment).toHaveLength(16);
      expect(commitmentOf(cipher, counterKey, wearableKey, nonce)).toEqual(commitment);
      const other = Uint8Array.of(...counterKey, ...wearableKey, ...nonce);
      other[bit >>> 3]! ^= 1 << (bit & 7);
      const [otherKey, otherPeer, otherNonce] = [other.slice(0, 32), other.slice(32, 64), other.slice(64)];
      expect(commitmentOf(cipher, otherKey, otherPeer, otherNonce)).not.toEqual(commitment);
    }),
  );
});

test('every number of four digits comes up about as often as any other', () => {
  const DRAWN = 100_000;
  const counts = new Array<number>(10_000).fill(0);
  const counterNonce = new Uint8Array(16);
  for (let drawn = 0; drawn < DRAWN; drawn++) {
    new DataView(counterNonce.buffer).setUint32(0, drawn);
    counts[comparisonDigits(CHIP, { ...TRANSCRIPT, counterNonce })]! += 1;
  }
  // Ten of each are due: chi-squared with 9999 degrees of freedom is 9999 ± 141, and five deviations off is no chance.
  const chiSquared = counts.reduce((sum, count) => sum + (count - 10) ** 2 / 10, 0);
  expect(Math.abs(chiSquared - 9999)).toBeLessThan(5 * 141.4);
});

test('the bias of the remainder is as the comment says', () => {
  expect(2 ** 32 - 10_000 * 429_496).toBe(7_296);
  expect((429_497 / 2 ** 32) * 10_000).toBeCloseTo(1.00000063, 8);
});

test('a pairing from both ends comes to one key', () => {
  const [counterSecret, wearableSecret] = [counting(1, 32), hex('5a'.repeat(32))];
  const [counterKey, wearableKey] = [CHIP.publicKey(counterSecret), CHIP.publicKey(wearableSecret)];
  const transcript = { ...TRANSCRIPT, counterKey, wearableKey };
  const ofCounter = sessionKey(CHIP, CHIP.agree(counterSecret, wearableKey)!, transcript);
  expect(sessionKey(CHIP, CHIP.agree(wearableSecret, counterKey)!, transcript)).toEqual(ofCounter);
});
