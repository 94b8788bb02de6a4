// The filter at work: against SciPy on the same samples, and in pieces of any length.
import { describe, expect, it } from 'vitest';
import { designWeighting } from '../../../src/vibration/weighting/design.js';
import { noSquares, type Samples, type Squares, WeightingFilter } from '../../../src/vibration/weighting/filter.js';

const RATE_HZ = 96_000;
const FRAMES = 192_000;

/** R.m.s. of FRAMES samples, as printed by filtered-by-scipy.py (SciPy 1.17.1). */
const BY_SCIPY = [
  { seed: 1, band: 0.09887670642266808, weighted: 0.013290199788899665 },
  { seed: 2, band: 0.09711561800219097, weighted: 0.013804988613831238 },
  { seed: 3, band: 0.0986094637995849, weighted: 0.014529934497618269 },
];

function noise(seed: number, length = FRAMES): Float64Array {
  let state = seed;
  return Float64Array.from({ length }, () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 31 - 1;
  });
}

const samples: Samples = { x: noise(1), y: noise(2), z: noise(3) };
const rms = (sum: number | undefined) => Math.sqrt(sum! / FRAMES);

function passed(pieces: readonly number[]): Squares {
  const filter = new WeightingFilter(designWeighting(RATE_HZ));
  const squares = noSquares();
  let from = 0;
  for (const length of pieces) {
    filter.pass(samples, from, from + length, squares);
    from += length;
  }
  return squares;
}

describe('white noise at 96 kHz', () => {
  const squares = passed([FRAMES]);

  it.each(BY_SCIPY)('has the value that SciPy finds, within 0.1 percent: seed $seed', ({ seed, band, weighted }) => {
    expect(Math.abs(rms(squares.weighted[seed - 1]) / weighted - 1)).toBeLessThan(0.001);
    expect(Math.abs(rms(squares.band[seed - 1]) / band - 1)).toBeLessThan(0.001);
  });

  it('has the same value in pieces', () => {
    const inPieces = passed([1, 2, 999, 100_000, FRAMES - 101_002]);
    for (const kind of ['weighted', 'band', 'greatestWeighted'] as const) {
      for (const axis of [0, 1, 2]) expect(inPieces[kind][axis]! / squares[kind][axis]!).toBeCloseTo(1, 12);
    }
  });

  it('has a greatest value that no other exceeds', () => {
    const filter = new WeightingFilter(designWeighting(RATE_HZ));
    let most = 0;
    for (let at = 0; at < 2000; at++) {
      const one = noSquares();
      filter.pass(samples, at, at + 1, one);
      expect(one.greatestWeighted[2]).toBeCloseTo(one.weighted[2]!, 15);
      most = Math.max(most, one.weighted[2]!);
    }
    const together = noSquares();
    new WeightingFilter(designWeighting(RATE_HZ)).pass(samples, 0, 2000, together);
    expect(together.greatestWeighted[2]! / most).toBeCloseTo(1, 12);
  });
});

it('nothing is left of what has passed before it settles anew', () => {
  const filter = new WeightingFilter(designWeighting(6400));
  filter.pass(samples, 0, 5000, noSquares());
  const still = { x: new Float64Array(10), y: new Float64Array(10), z: new Float64Array(10) };
  filter.settle(still, 10);
  const squares = noSquares();
  filter.pass(still, 0, 10, squares);
  expect([...squares.weighted, ...squares.band]).toEqual([0, 0, 0, 0, 0, 0]);
});
