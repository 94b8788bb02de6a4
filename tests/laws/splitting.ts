// The law of whatever takes in runs of the same thing: how a run is cut into pieces changes nothing.
import fc from 'fast-check';
import { expect } from 'vitest';

/** A run of `length` of the same item. */
export interface Run<T> {
  readonly item: T;
  readonly length: number;
}

/** Runs, and the same runs cut into pieces at random places. */
export function cutRuns<T>(
  items: fc.Arbitrary<T>,
  longest: number,
): fc.Arbitrary<{ readonly runs: readonly Run<T>[]; readonly pieces: readonly Run<T>[] }> {
  const cut = fc
    .record({ item: items, lengths: fc.array(fc.integer({ min: 1, max: longest }), { minLength: 1, maxLength: 4 }) })
    .map(({ item, lengths }) => ({
      run: { item, length: lengths.reduce((sum, length) => sum + length, 0) },
      pieces: lengths.map((length) => ({ item, length })),
    }));
  return fc
    .array(cut, { maxLength: 20 })
    .map((cuts) => ({ runs: cuts.map(({ run }) => run), pieces: cuts.flatMap(({ pieces }) => pieces) }));
}

/** Holds that takeIn comes to the same, however the runs are cut. */
export function expectSameHoweverCut<T, R>(
  items: fc.Arbitrary<T>,
  longest: number,
  takeIn: (runs: readonly Run<T>[]) => R,
): void {
  fc.assert(
    fc.property(cutRuns(items, longest), ({ runs, pieces }) => {
      expect(takeIn(pieces)).toEqual(takeIn(runs));
    }),
  );
}
