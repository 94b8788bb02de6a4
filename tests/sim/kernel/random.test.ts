import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RandomStream } from '../../../sim/kernel/random.js';

const SEED = fc.integer({ min: 0, max: 2 ** 32 - 1 });

function first(stream: RandomStream, draws: number): readonly number[] {
  return Array.from({ length: draws }, () => stream.bits());
}

describe('named streams', () => {
  // Pinned, not published: a package update that changes a draw changes every trace, and must be seen here.
  it('draw the numbers that they always drew', () => {
    const numbers = [4138417024, 591148189, 1260595930, 4254210626, 2258633415];
    expect(first(RandomStream.named(7, 'device breaker'), 5)).toEqual(numbers);
    expect(RandomStream.named(2 ** 32 - 1, 'air säge / Ødda').bits()).toBe(580564894);
  });

  it('depend on their seed and their name, and on nothing else', () => {
    fc.assert(
      fc.property(SEED, fc.string(), fc.nat(20), (seed, name, drawnElsewhere) => {
        const one = RandomStream.named(seed, name);
        const other = RandomStream.named(seed, `${name}.`);
        first(other, drawnElsewhere);
        const numbers = first(one, 4);
        expect(first(RandomStream.named(seed, name), 4)).toEqual(numbers);
        expect(first(RandomStream.named(seed, `${name}.`), 4)).not.toEqual(numbers);
        expect(first(RandomStream.named(seed ^ 1, name), 4)).not.toEqual(numbers);
      }),
    );
  });

  it('are independent of each other over the seeds, down to the single bit', () => {
    const SEEDS = 2000;
    const agreed = Array.from({ length: 8 }, () => 0);
    for (let seed = 0; seed < SEEDS; seed++) {
      const one = RandomStream.named(seed, 'air breaker / Edda');
      const other = RandomStream.named(seed, 'air grinder / Edda');
      for (let draw = 0; draw < agreed.length; draw++) if (one.chance(1, 2) === other.chance(1, 2)) agreed[draw]! += 1;
    }
    // Half of 2000 fair agreements, five standard deviations (22 each) either way.
    for (const count of agreed) expect(Math.abs(count - SEEDS / 2)).toBeLessThan(112);
  });

  it('go on from a state as if they had never stopped', () => {
    fc.assert(
      fc.property(SEED, fc.nat(50), (seed, before) => {
        const stream = RandomStream.named(seed, 'device saw');
        first(stream, before);
        expect(stream.drawn).toBe(before);
        const copy = RandomStream.fromState(structuredClone(stream.state()));
        expect(first(copy, 5)).toEqual(first(stream, 5));
        expect(copy.drawn).toBe(before + 5);
      }),
    );
  });
});

describe('within', () => {
  it('stays within its bounds, and meets both', () => {
    fc.assert(
      fc.property(SEED, fc.integer({ min: -500, max: 500 }), fc.integer({ min: 0, max: 8 }), (seed, low, span) => {
        const stream = RandomStream.named(seed, 'any');
        const drawn = Array.from({ length: 300 }, () => stream.within(low, low + span));
        expect(Math.min(...drawn)).toBe(low);
        expect(Math.max(...drawn)).toBe(low + span);
        expect(drawn.every(Number.isInteger)).toBe(true);
      }),
    );
  });

  it('is fair where the span does not divide the bits', () => {
    const stream = RandomStream.named(1, 'any');
    const counts = [0, 0, 0];
    for (let draw = 0; draw < 30_000; draw++) counts[stream.within(0, 2)]! += 1;
    // 10 000 each, five standard deviations (82 each) either way.
    for (const count of counts) expect(Math.abs(count - 10_000)).toBeLessThan(410);
  });

  it('is fair over a span so wide that it would show', () => {
    const third = 2 ** 30;
    const stream = RandomStream.named(2, 'any');
    let low = 0;
    for (let draw = 0; draw < 30_000; draw++) if (stream.within(0, 3 * third - 1) < third) low += 1;
    // A third of them, five standard deviations (82) either way; the bits left over would make it a half.
    expect(Math.abs(low - 10_000)).toBeLessThan(410);
  });

  it('covers all 32 bits and refuses an empty span or a wider one', () => {
    const stream = RandomStream.named(1, 'any');
    expect(stream.within(0, 2 ** 32 - 1)).toBeGreaterThanOrEqual(0);
    expect(() => stream.within(3, 2)).toThrow('3..2');
    expect(() => stream.within(0, 2 ** 32)).toThrow('no whole number');
    expect(() => stream.within(0, Number.NaN)).toThrow('no whole number');
  });
});

describe('chance', () => {
  it('draws nothing where the answer is certain', () => {
    const stream = RandomStream.named(5, 'any');
    expect(stream.chance(0, 1)).toBe(false);
    expect(stream.chance(3, 3)).toBe(true);
    expect(stream.drawn).toBe(0);
    stream.chance(1, 2);
    expect(stream.drawn).toBe(1);
  });

  it('comes true as often as its ratio says', () => {
    const stream = RandomStream.named(6, 'any');
    let came = 0;
    for (let draw = 0; draw < 30_000; draw++) if (stream.chance(2, 7)) came += 1;
    // 30 000 · 2/7 = 8571, five standard deviations (78 each) either way.
    expect(Math.abs(came - 8571)).toBeLessThan(390);
  });
});
