// Laws of a merge that keeps the largest (TAL-3): lost, late, doubled and reordered news change nothing in the end.
import fc from 'fast-check';
import { expect } from 'vitest';

/** Holds merge to be idempotent, commutative and associative. merge returns a new value and leaves both as they were. */
export function expectMergeLaws<T>(values: fc.Arbitrary<T>, merge: (one: T, other: T) => T): void {
  fc.assert(
    fc.property(values, values, values, (a, b, c) => {
      expect(merge(a, a)).toEqual(a);
      expect(merge(merge(a, b), b)).toEqual(merge(a, b));
      expect(merge(a, b)).toEqual(merge(b, a));
      expect(merge(merge(a, b), c)).toEqual(merge(a, merge(b, c)));
    }),
  );
}

/** Holds any order and any number of repetitions of some news, each told at least once, to come to the same. */
export function expectSameInAnyOrder<N, R>(news: fc.Arbitrary<N>, tellAll: (news: readonly N[]) => R): void {
  const told = fc
    .array(news, { minLength: 1, maxLength: 8 })
    .chain((all) => fc.tuple(fc.constant(all), fc.array(fc.nat(all.length - 1), { maxLength: 8 })))
    .chain(([all, again]) =>
      fc.tuple(
        fc.constant(all),
        fc.shuffledSubarray([...all, ...again.map((index) => all[index]!)], { minLength: all.length + again.length }),
      ),
    );
  fc.assert(
    fc.property(told, ([all, shuffled]) => {
      expect(tellAll(shuffled)).toEqual(tellAll(all));
    }),
  );
}
