// PAI-2: secrets and nonces are made of all the bits that the device's source gives, in their order.
import { expect, test } from 'vitest';
import { PAIRING_BYTES, randomBytes } from '../../src/port/random.js';

function sourceOf(...words: number[]): { random(): number } {
  return { random: () => words.shift() ?? 0 };
}

test('each word gives four bytes, the first bits first', () => {
  expect([...randomBytes(sourceOf(0x01020304, 0xfffefdfc), 8)]).toEqual([1, 2, 3, 4, 0xff, 0xfe, 0xfd, 0xfc]);
});

test('no word is drawn more than once, and none more than needed', () => {
  let drawn = 0;
  const source = { random: () => ++drawn };
  const bytes = randomBytes(source, PAIRING_BYTES.secret);
  expect(drawn).toBe(PAIRING_BYTES.secret / 4);
  expect(new Set(bytes.filter((byte) => byte !== 0)).size).toBe(8);
});

test('a secret has 32 bytes, a nonce 16', () => {
  expect(PAIRING_BYTES).toEqual({ secret: 32, nonce: 16 });
});

test('half a word is asked for by mistake', () => {
  expect(() => randomBytes(sourceOf(1), 6)).toThrow(RangeError);
});
