import fc from 'fast-check';
import { expect, test } from 'vitest';
import { sameBytes } from '../../src/link/bytes.js';

test('bytes are the same as their copy, and not once one is changed, left out or put behind', () => {
  fc.assert(
    fc.property(
      fc.uint8Array({ minLength: 1, maxLength: 40 }),
      fc.nat(),
      fc.integer({ min: 1, max: 255 }),
      (one, at, bits) => {
        const changed = one.slice();
        changed[at % one.length]! ^= bits;
        expect(sameBytes(one, one.slice())).toBe(true);
        expect(sameBytes(one, changed)).toBe(false);
        expect(sameBytes(one, one.subarray(1))).toBe(false);
        expect(sameBytes(one.subarray(0, -1), one)).toBe(false);
      },
    ),
  );
});

test('no bytes are the same as no bytes, and as no others', () => {
  expect(sameBytes(new Uint8Array(0), new Uint8Array(0))).toBe(true);
  expect(sameBytes(new Uint8Array(0), new Uint8Array(1))).toBe(false);
});
