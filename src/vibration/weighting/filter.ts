// W_h and its band limits over three axes: all three sections, the squares and the peak in one loop, one axis after the other. All
// axes in one loop was tried and is a little slower: more numbers are alive at a time than a processor has registers.
import type { Biquad } from './biquad.js';
import type { Weighting } from './design.js';

export const AXES = ['x', 'y', 'z'] as const;
export type Axis = (typeof AXES)[number];

/** Acceleration in m/s², one array an axis, of equal length. */
export type Samples = Readonly<Record<Axis, Float64Array>>;

/** Of a stretch of samples, by axis: sums of squares and the greatest square, (m/s²)². */
export interface Squares {
  readonly weighted: Float64Array;
  /** Band-limited only. */
  readonly band: Float64Array;
  readonly greatestWeighted: Float64Array;
}

export function noSquares(): Squares {
  return { weighted: new Float64Array(3), band: new Float64Array(3), greatestWeighted: new Float64Array(3) };
}

/** Of an axis: two numbers for each of three sections. */
const STATES = 6;

export class WeightingFilter {
  private readonly states = AXES.map(() => new Float64Array(STATES));
  /** Squared, of the first coefficients of the numerators, which are put off from each sample to the sums. */
  private readonly bandGain: number;
  private readonly weightedGain: number;

  constructor(private readonly weighting: Weighting) {
    const { highPass, lowPass, transition } = weighting;
    this.bandGain = (highPass.b0 * lowPass.b0) ** 2;
    this.weightedGain = this.bandGain * transition.b0 ** 2;
  }

  /** A new stretch begins: what has passed is forgotten, then these samples pass and do not count. */
  settle(samples: Samples, count: number): void {
    for (const state of this.states) state.fill(0);
    this.pass(samples, 0, count, noSquares());
  }

  /** Takes the samples from..to-1 and adds their squares. */
  pass(samples: Samples, from: number, to: number, squares: Squares): void {
    for (const [index, axis] of AXES.entries()) {
      this.passAxis(samples[axis], from, to, this.states[index]!, index, squares);
    }
  }

  /**
   * Each section is in the transposed second form with a numerator that begins with 1; that of the high-pass is (1 − 1/z)². The
   * output is put into the states, next1 = state2 + (b1 − a1)·input − a1·state1, so that no sample waits for it.
   */
  private passAxis(
    values: Float64Array,
    from: number,
    to: number,
    state: Float64Array,
    index: number,
    squares: Squares,
  ): void {
    const [highA1, highA2, highC1, highC2] = coefficients(this.weighting.highPass);
    const [lowA1, lowA2, lowC1, lowC2] = coefficients(this.weighting.lowPass);
    const [turnA1, turnA2, turnC1, turnC2] = coefficients(this.weighting.transition);
    let high1 = state[0]!;
    let high2 = state[1]!;
    let low1 = state[2]!;
    let low2 = state[3]!;
    let turn1 = state[4]!;
    let turn2 = state[5]!;
    let band = 0;
    let weighted = 0;
    let greatest = 0;
    for (let at = from; at < to; at++) {
      let input = values[at]!;
      let before = high1;
      let output = input + before;
      high1 = high2 + highC1 * input - highA1 * before;
      high2 = highC2 * input - highA2 * before;
      input = output;
      before = low1;
      output = input + before;
      low1 = low2 + lowC1 * input - lowA1 * before;
      low2 = lowC2 * input - lowA2 * before;
      band += output * output;
      input = output;
      before = turn1;
      output = input + before;
      turn1 = turn2 + turnC1 * input - turnA1 * before;
      turn2 = turnC2 * input - turnA2 * before;
      const square = output * output;
      weighted += square;
      if (square > greatest) greatest = square;
    }
    state.set([high1, high2, low1, low2, turn1, turn2]);
    squares.band[index]! += this.bandGain * band;
    squares.weighted[index]! += this.weightedGain * weighted;
    squares.greatestWeighted[index] = Math.max(squares.greatestWeighted[index]!, this.weightedGain * greatest);
  }
}

function coefficients({ b0, b1, b2, a1, a2 }: Biquad): readonly [a1: number, a2: number, c1: number, c2: number] {
  return [a1, a2, b1 / b0 - a1, b2 / b0 - a2];
}
