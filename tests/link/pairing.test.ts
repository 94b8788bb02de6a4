// PAI-1: the four digits come from both nonces, the same on both sides, and are spread over all of 0000..9999.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { comparisonDigits } from '../../src/link/pairing.js';

const nonce = fc.integer({ min: 0, max: 0xffff_ffff });

test('they are four digits, whatever the nonces', () => {
  fc.assert(
    fc.property(nonce, nonce, (wearable, counter) => {
      const digits = comparisonDigits(wearable, counter);
      expect(Number.isInteger(digits)).toBe(true);
      expect(digits).toBeGreaterThanOrEqual(0);
      expect(digits).toBeLessThanOrEqual(9999);
      expect(comparisonDigits(wearable, counter)).toBe(digits);
    }),
  );
  expect(comparisonDigits(9_999, 0)).toBe(9_999);
  expect(comparisonDigits(10_000, 0)).toBe(0);
});

test('another nonce on either side shows other digits, but for about one in 10 000', () => {
  let same = 0;
  for (let made = 1; made <= 10_000; made++) {
    if (comparisonDigits(0x12345678, made) === comparisonDigits(0x12345678, 0)) same += 1;
    if (comparisonDigits(Math.imul(made, 0x9e3779b1) >>> 0, 77) === comparisonDigits(0, 77)) same += 1;
  }
  expect(same).toBeLessThan(10);
});

test('every number of four digits comes up', () => {
  const seen = new Set<number>();
  for (let made = 0; made < 200_000; made++) seen.add(comparisonDigits(0, made));
  expect(seen.size).toBeGreaterThan(9_990);
});
