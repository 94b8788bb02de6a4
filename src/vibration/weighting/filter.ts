// W_h and its band limits over three axes at once. The chains of the axes do not depend on each other, so a processor works on
// all three at the same time; one axis after the other would wait for itself.
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

/** Two numbers for each of three sections of each of three axes. */
const STATES = 18;

export class WeightingFilter {
  private readonly state = new Float64Array(STATES);
  /** Of the high-pass (1 − 1/z)², and of the sections behind it, put off to the squares. */
  private readonly bandGain: number;
  private readonly weightedGain: number;

  constructor(private readonly weighting: Weighting) {
    const { highPass, lowPass, transition } = weighting;
    this.bandGain = (highPass.b0 * lowPass.b0) ** 2;
    this.weightedGain = this.bandGain * transition.b0 ** 2;
  }

  /** A new stretch begins: what has passed is forgotten, then these samples pass and do not count. */
  settle(samples: Samples, count: number): void {
    this.state.fill(0);
    this.pass(samples, 0, count, noSquares());
  }

  /** Takes the samples from..to-1 and adds their squares. Each section is in the transposed second form, its numerator begins with 1. */
  pass(samples: Samples, from: number, to: number, squares: Squares): void {
    const { x, y, z } = samples;
    const { state: s } = this;
    const { a1: ha1, a2: ha2 } = this.weighting.highPass;
    const { a1: la1, a2: la2 } = this.weighting.lowPass;
    const { a1: ta1, a2: ta2 } = this.weighting.transition;
    const [lb1, lb2] = numerator(this.weighting.lowPass);
    const [tb1, tb2] = numerator(this.weighting.transition);
    let [x1, x2, x3, x4, x5, x6] = [s[0]!, s[1]!, s[2]!, s[3]!, s[4]!, s[5]!];
    let [y1, y2, y3, y4, y5, y6] = [s[6]!, s[7]!, s[8]!, s[9]!, s[10]!, s[11]!];
    let [z1, z2, z3, z4, z5, z6] = [s[12]!, s[13]!, s[14]!, s[15]!, s[16]!, s[17]!];
    let [bandX, bandY, bandZ, weightedX, weightedY, weightedZ] = [0, 0, 0, 0, 0, 0];
    let [mostX, mostY, mostZ] = [0, 0, 0];
    for (let at = from; at < to; at++) {
      let input = x[at]!;
      let output = input + x1;
      x1 = x2 - 2 * input - ha1 * output;
      x2 = input - ha2 * output;
      input = output;
      output = input + x3;
      x3 = lb1 * input - la1 * output + x4;
      x4 = lb2 * input - la2 * output;
      bandX += output * output;
      input = output;
      output = input + x5;
      x5 = tb1 * input - ta1 * output + x6;
      x6 = tb2 * input - ta2 * output;
      let square = output * output;
      weightedX += square;
      if (square > mostX) mostX = square;

      input = y[at]!;
      output = input + y1;
      y1 = y2 - 2 * input - ha1 * output;
      y2 = input - ha2 * output;
      input = output;
      output = input + y3;
      y3 = lb1 * input - la1 * output + y4;
      y4 = lb2 * input - la2 * output;
      bandY += output * output;
      input = output;
      output = input + y5;
      y5 = tb1 * input - ta1 * output + y6;
      y6 = tb2 * input - ta2 * output;
      square = output * output;
      weightedY += square;
      if (square > mostY) mostY = square;

      input = z[at]!;
      output = input + z1;
      z1 = z2 - 2 * input - ha1 * output;
      z2 = input - ha2 * output;
      input = output;
      output = input + z3;
      z3 = lb1 * input - la1 * output + z4;
      z4 = lb2 * input - la2 * output;
      bandZ += output * output;
      input = output;
      output = input + z5;
      z5 = tb1 * input - ta1 * output + z6;
      z6 = tb2 * input - ta2 * output;
      square = output * output;
      weightedZ += square;
      if (square > mostZ) mostZ = square;
    }
    s.set([x1, x2, x3, x4, x5, x6, y1, y2, y3, y4, y5, y6, z1, z2, z3, z4, z5, z6]);
    add(squares.band, this.bandGain, [bandX, bandY, bandZ]);
    add(squares.weighted, this.weightedGain, [weightedX, weightedY, weightedZ]);
    for (const [axis, most] of [mostX, mostY, mostZ].entries()) {
      squares.greatestWeighted[axis] = Math.max(squares.greatestWeighted[axis]!, most * this.weightedGain);
    }
  }
}

function numerator({ b0, b1, b2 }: Weighting['lowPass']): readonly [b1: number, b2: number] {
  return [b1 / b0, b2 / b0];
}

function add(sums: Float64Array, gain: number, more: readonly number[]): void {
  for (const [axis, sum] of more.entries()) sums[axis] = sums[axis]! + gain * sum;
}
