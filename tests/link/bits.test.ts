// Fields in bytes: any layout that the codec can hold gives back what was put, and leaves its neighbours alone.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { placesOf, putBytes, putNumber, sheetOf, takeBytes, takeNumber } from '../../src/link/bits.js';
import { TALLY_BITS } from '../../src/link/layout.js';
import { toHex } from './hex.js';

test('integers lie most significant bit first, one behind the other', () => {
  const sheet = sheetOf(16);
  const places = placesOf(TALLY_BITS);
  putNumber(sheet, places.dose, 0xabcdef0123456);
  putNumber(sheet, places.triggerWindows, 0x789abcd);
  putNumber(sheet, places.unratedWindows, 0x0fedcba);
  putNumber(sheet, places.magnitudeTenths, 0b1_1111_0100);
  putNumber(sheet, places.cell, 0b10);
  putNumber(sheet, places.flags, 0b0_0000_0001);
  expect(toHex(sheet.bytes)).toBe('abcdef0123456789abcd0fedcbafa401');
});

test('what is put into a field is there until something else is, and nothing beside it moves', () => {
  const layout = { before: 13, narrow: 9, wide: 43, after: 7 };
  const places = placesOf(layout);
  const value = (bits: number) =>
    fc.oneof(
      fc.constantFrom(0, 2 ** bits - 1),
      fc.maxSafeNat().map((n) => n % 2 ** bits),
    );
  fc.assert(
    fc.property(value(13), value(9), value(9), value(43), value(43), value(7), (before, a, b, c, d, after) => {
      const sheet = sheetOf(9);
      putNumber(sheet, places.before, before);
      putNumber(sheet, places.narrow, a);
      putNumber(sheet, places.wide, c);
      putNumber(sheet, places.after, after);
      putNumber(sheet, places.narrow, b);
      putNumber(sheet, places.wide, d);
      const taken = Object.values(places).map((place) => takeNumber(sheet, place));
      expect(taken).toEqual([before, b, d, after]);
    }),
  );
});

test.each([
  [8, -1],
  [8, 256],
  [8, 0.5],
  [8, Number.NaN],
  [32, 2 ** 32],
  [32, -1],
  [52, 2 ** 52],
  [52, -1],
  [52, 0.5],
  [52, Number.NaN],
  [52, Number.POSITIVE_INFINITY],
])('a field of %i bits refuses %d', (bits, value) => {
  const { field } = placesOf({ field: bits });
  expect(() => putNumber(sheetOf(8), field, value)).toThrow(`cannot hold ${value}`);
});

test('whole bytes are put as they are, and only as many as there are', () => {
  const { key } = placesOf({ first: 8, key: 128 });
  const sheet = sheetOf(17);
  const value = Uint8Array.from({ length: 16 }, (_, index) => index + 1);
  putBytes(sheet, key, value);
  expect(toHex(sheet.bytes)).toBe('000102030405060708090a0b0c0d0e0f10');
  expect(takeBytes(sheet, key)).toEqual(value);
  expect(() => putBytes(sheet, key, value.slice(1))).toThrow('cannot hold 15');
});

test('a layout that the codec cannot hold is an error at once', () => {
  expect(() => placesOf({ odd: 3, word: 32 })).toThrow('neither at once nor as bytes');
  expect(() => placesOf({ odd: 3, key: 128 })).toThrow('neither at once nor as bytes');
});
