// The CRC-32 of the frames of a pairing, against the published catalogue and its own law.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { crc32 } from '../../src/link/crc32.js';

const ascii = (text: string) => new TextEncoder().encode(text);

test('it is CRC-32/ISO-HDLC', () => {
  // Check value over "123456789" of the published CRC catalogues.
  expect(crc32(ascii('123456789'))).toBe(0xcbf43926);
  expect(crc32(ascii(''))).toBe(0);
});

test('it goes on where an earlier one stopped', () => {
  fc.assert(
    fc.property(fc.uint8Array(), fc.uint8Array(), (first, second) => {
      expect(crc32(second, crc32(first))).toBe(crc32(Uint8Array.of(...first, ...second)));
    }),
  );
});
