// A first look at a recording, before anything is filtered: how long its stretches are, what lies under the vibration (gravity, an
// offset of the amplifier), and whether that has moved meanwhile: the sign of a sensor that was driven too hard.
import type { Recording } from '../recording/recording.js';
import { AXES, type Axis, type Samples } from '../weighting/filter.js';

/** Samples without a gap between them. */
export interface Stretch {
  readonly frames: number;
  /** Mean by axis, m/s². */
  readonly means: readonly [x: number, y: number, z: number];
}

/** The mean of an axis has moved, by so much, and about then. */
export interface Shift {
  readonly axis: Axis;
  readonly atS: number;
  readonly byMs2: number;
}

export interface Survey {
  readonly frames: number;
  readonly stretches: readonly Stretch[];
  /** The largest of each axis in which there is any. */
  readonly shifts: readonly Shift[];
}

const SLICE_S = 0.25;
/** A slice holds a period and a half of 6.3 Hz: what is left of the vibration in its mean is small beside this part of the vibration. */
const LEAST_PART = 0.2;
/** Less is the hand that turns the tool in the field of gravity. */
const LEAST_SHIFT_MS2 = 20;
/** Medians over so many slices before and after are compared; and each slice with the median of as many on both sides. */
const SPAN = 8;
const LEAST_SPAN = 2;

export async function survey(recording: Recording): Promise<Survey> {
  const stretches: MutableStretch[] = [];
  const slices = new Slices(Math.max(1, Math.round(SLICE_S * recording.rateHz)));
  let frames = 0;
  for await (const { samples, length, begins } of recording.blocks()) {
    if (begins || stretches.length === 0) {
      stretches.push({ frames: 0, sums: [0, 0, 0] });
      slices.begin();
    }
    const stretch = stretches[stretches.length - 1]!;
    for (const [index, axis] of AXES.entries()) stretch.sums[index]! += sumOf(samples[axis], length);
    stretch.frames += length;
    frames += length;
    slices.take(samples, length);
  }
  return { frames, stretches: stretches.map(finished), shifts: slices.shifts(SLICE_S) };
}

interface MutableStretch {
  frames: number;
  readonly sums: [number, number, number];
}

function finished({ frames, sums: [x, y, z] }: MutableStretch): Stretch {
  return { frames, means: [x / frames, y / frames, z / frames] };
}

function sumOf(values: Float64Array, length: number): number {
  let sum = 0;
  for (let at = 0; at < length; at++) sum += values[at]!;
  return sum;
}

/** Means and r.m.s. values of slices, by axis. */
class Slices {
  private readonly means: readonly number[][] = AXES.map(() => []);
  private readonly powers: readonly number[][] = AXES.map(() => []);
  private readonly sums = new Float64Array(AXES.length);
  private readonly squares = new Float64Array(AXES.length);
  private filled = 0;

  constructor(private readonly size: number) {}

  begin(): void {
    this.filled = 0;
    this.sums.fill(0);
    this.squares.fill(0);
  }

  take(samples: Samples, length: number): void {
    for (let from = 0; from < length; ) {
      const to = Math.min(length, from + this.size - this.filled);
      for (const [index, axis] of AXES.entries()) this.add(index, samples[axis], from, to);
      this.filled += to - from;
      from = to;
      if (this.filled === this.size) this.close();
    }
  }

  shifts(sliceS: number): readonly Shift[] {
    return AXES.flatMap((axis, index) => {
      const means = this.means[index]!;
      const power = this.powers[index]!.reduce((sum, one) => sum + one, 0) / Math.max(1, means.length);
      const least = Math.max(LEAST_SHIFT_MS2, LEAST_PART * Math.sqrt(power));
      let greatest: Shift | undefined;
      for (let at = 0; at < means.length; at++) {
        const before = means.slice(Math.max(0, at - SPAN), at);
        const after = means.slice(at, at + SPAN);
        const around = median([...before, ...after]);
        // A lasting step, seen only with enough on both sides; a jump that soon decays.
        const step = Math.min(before.length, after.length) >= LEAST_SPAN ? median(after) - median(before) : 0;
        const jump = means[at]! - around;
        const byMs2 = Math.abs(step) > Math.abs(jump) ? step : jump;
        if (Math.abs(byMs2) < least || Math.abs(byMs2) <= Math.abs(greatest?.byMs2 ?? 0)) continue;
        greatest = { axis, atS: at * sliceS, byMs2 };
      }
      return greatest === undefined ? [] : [greatest];
    });
  }

  private add(index: number, values: Float64Array, from: number, to: number): void {
    let [sum, square] = [0, 0];
    for (let at = from; at < to; at++) {
      const value = values[at]!;
      sum += value;
      square += value * value;
    }
    this.sums[index]! += sum;
    this.squares[index]! += square;
  }

  private close(): void {
    for (const index of AXES.keys()) {
      const mean = this.sums[index]! / this.size;
      this.means[index]!.push(mean);
      this.powers[index]!.push(Math.max(0, this.squares[index]! / this.size - mean ** 2));
    }
    this.begin();
  }
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length / 2;
  return (sorted[Math.floor(half - 0.5)]! + sorted[Math.ceil(half - 0.5)]!) / 2;
}
