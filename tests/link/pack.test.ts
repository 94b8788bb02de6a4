// Records of fields, for what is kept or handed over.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { pack, unpack } from '../../src/link/pack.js';

const LAYOUT = { flag: 1, small: 7, dose: 52, windows: 28, last: 16 } as const;

const values = fc.record({
  flag: fc.nat(1),
  small: fc.nat(127),
  dose: fc.maxSafeNat().map((any) => any % 2 ** 52),
  windows: fc.nat(2 ** 28 - 1),
  last: fc.nat(65_535),
});

test('what is packed comes out, with what follows it as it is', () => {
  fc.assert(
    fc.property(values, fc.uint8Array({ maxLength: 9 }), fc.uint8Array({ maxLength: 9 }), (fields, one, other) => {
      const { tail, ...read } = unpack(LAYOUT, pack(LAYOUT, fields, one, other));
      expect(read).toEqual(fields);
      expect([...tail]).toEqual([...one, ...other]);
    }),
  );
});

test('fields lie one after the other, most significant bit first', () => {
  expect([...pack({ high: 4, low: 12 }, { high: 0xa, low: 0xbcd }, Uint8Array.of(1))]).toEqual([0xab, 0xcd, 1]);
  expect([...pack({}, {}, Uint8Array.of(1), Uint8Array.of(2))]).toEqual([1, 2]);
});

test('fields of an object beyond those of the layout are left out', () => {
  const link = { counter: 3, session: 4, name: 'saw' };
  expect([...pack({ counter: 8, session: 8 }, link)]).toEqual([3, 4]);
});

test('what was read does not change when its bytes do', () => {
  const bytes = pack({ one: 8 }, { one: 1 }, Uint8Array.of(2));
  const { tail } = unpack({ one: 8 }, bytes);
  bytes.fill(9);
  expect([...tail]).toEqual([2]);
});

test.each([
  ['more than a field can hold', () => pack({ one: 8 }, { one: 256 })],
  ['a negative number', () => pack({ one: 8 }, { one: -1 })],
  ['half of one', () => pack({ one: 8 }, { one: 0.5 })],
  ['no number', () => pack({ one: 8 }, { one: Number.NaN })],
  ['more than 52 bits', () => pack({ one: 52, two: 4 }, { one: 2 ** 52, two: 0 })],
  ['fields that fill no whole bytes', () => pack({ one: 9 }, { one: 1 })],
  ['too few bytes to read', () => unpack({ one: 16 }, Uint8Array.of(1))],
])('%s throws', (_, make) => {
  expect(make).toThrow(Error);
});
