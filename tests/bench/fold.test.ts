import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fold } from '../../src/bench/fold.js';

const LEAF = fc.oneof(
  fc.integer(),
  fc.maxSafeInteger(),
  fc.boolean(),
  fc.constant(null),
  fc.string(),
  fc.constant(Infinity),
);
const DATA = fc.letrec((tie) => ({
  data: fc.oneof({ depthSize: 'small' }, LEAF, fc.array(tie('data')), fc.dictionary(fc.string(), tie('data'))),
})).data;

/** Every piece of plain data with one leaf of it replaced. */
function* withLeaf(data: unknown, leaf: unknown): Generator<unknown> {
  if (typeof data !== 'object' || data === null) {
    if (!Object.is(data, leaf)) yield leaf;
    return;
  }
  for (const key of Object.keys(data)) {
    const one = (data as Record<string, unknown>)[key];
    for (const other of withLeaf(one, leaf)) {
      yield Array.isArray(data) ? data.with(Number(key), other) : { ...data, [key]: other };
    }
  }
}

describe('fold', () => {
  it('is the same for the same data, and a whole number of 32 bits', () => {
    fc.assert(
      fc.property(DATA, fc.integer(), (data, seed) => {
        expect(fold(structuredClone(data), seed)).toBe(fold(data, seed));
        expect(fold(data, seed) | 0).toBe(fold(data, seed));
      }),
    );
  });

  it('is another wherever one leaf is another, and for another seed', () => {
    fc.assert(
      fc.property(DATA, LEAF, (data, leaf) => {
        for (const other of withLeaf(data, leaf)) expect(fold(other, 1)).not.toBe(fold(data, 1));
        expect(fold(data, 1)).not.toBe(fold(data, 2));
      }),
      { seed: 1 },
    );
  });

  it('tells shapes apart that hold the same leaves', () => {
    const shapes = [
      [1, [2]],
      [[1], 2],
      [1, 2],
      [[1, 2]],
      [12],
      ['12'],
      [1, 2, null],
      [1, 2, []],
      2 ** 32 + 1,
      1,
      -1,
      '1',
      true,
    ];
    expect(new Set(shapes.map((shape) => fold(shape, 7))).size).toBe(shapes.length);
  });

  it('refuses what it could not tell apart', () => {
    for (const odd of [new Map([[1, 2]]), new Set([1]), undefined, () => 1])
      expect(() => fold([odd], 1)).toThrow('folded');
  });
});
