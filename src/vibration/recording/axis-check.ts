// Watches one axis for clipping and for a sensor that does not move, in one pass and without memory of the samples.

/** So many equal samples in a row at the greatest value are a clipped top. */
export const CLIPPED_RUN = 3;
/**
 * In quanta, the least difference between neighbours: a rounded top of a slow vibration that is recorded in steps has equal
 * samples too, but the step up to it is small (for three equal samples at most 4); a clipped top is hit at full slope.
 */
const STEEP_QUANTA = 6;

/** One end of the range. */
interface Top {
  level: number;
  /** Equal samples at the level up to now, and the step up to the first of them. */
  run: number;
  entry: number;
  runs: number;
  steepest: number;
  /** Sample at which the first of the runs began. */
  at: number;
}

export interface Clipping {
  readonly level: number;
  readonly runs: number;
  /** Number of the first clipped sample, counted from 0. */
  readonly at: number;
}

/** The least and the greatest value the container can hold, m/s². */
export interface FullScale {
  readonly low: number;
  readonly high: number;
}

export class AxisCheck {
  private readonly high = topAt(Number.NEGATIVE_INFINITY);
  private readonly low = topAt(Number.POSITIVE_INFINITY);
  private quantum = Number.POSITIVE_INFINITY;
  private previous = Number.NaN;
  private taken = 0;

  /** begins: no neighbour of the samples before. */
  take(values: Float64Array, length: number, begins: boolean): void {
    const { high, low } = this;
    const beyond = scan(values, length, begins ? Number.NaN : this.previous, high.level, low.level);
    this.quantum = Math.min(this.quantum, beyond.quantum);
    // Seldom but at the start: most blocks reach neither end.
    if (beyond.reached) this.reachIn(values, length, begins);
    this.previous = values[length - 1]!;
    this.taken += length;
  }

  private reachIn(values: Float64Array, length: number, begins: boolean): void {
    const { high, low } = this;
    let previous = begins ? Number.NaN : this.previous;
    for (let at = 0; at < length; at++) {
      const value = values[at]!;
      if (value >= high.level) reach(high, value, Math.abs(value - previous), this.taken + at);
      if (value <= low.level) reach(low, value, Math.abs(value - previous), this.taken + at);
      previous = value;
    }
  }

  get flat(): boolean {
    return this.taken > 1 && this.high.level === this.low.level;
  }

  clipping(fullScale: FullScale | null): Clipping | null {
    if (!(this.high.level > this.low.level)) return null;
    const isClipped = (top: Top, limit: number | undefined) =>
      top.runs > 0 && (top.level === limit || top.steepest > STEEP_QUANTA * this.quantum);
    if (isClipped(this.high, fullScale?.high)) return this.high;
    return isClipped(this.low, fullScale?.low) ? this.low : null;
  }
}

function topAt(level: number): Top {
  return { level, run: 0, entry: 0, runs: 0, steepest: 0, at: 0 };
}

/** A sample at or beyond the level; step: from the one before, 0 where it is the same, NaN where there is none. */
function reach(top: Top, value: number, step: number, at: number): void {
  if (value !== top.level) {
    top.level = value;
    top.runs = 0;
    top.steepest = 0;
  } else if (step === 0) {
    top.run += 1;
    if (top.run !== CLIPPED_RUN) return;
    if (top.runs === 0) top.at = at + 1 - CLIPPED_RUN;
    top.runs += 1;
    top.steepest = Math.max(top.steepest, top.entry);
    return;
  }
  top.run = 1;
  top.entry = Number.isNaN(step) ? 0 : step;
}

/** The least step that is not 0, and whether a sample is at or beyond one of the levels. */
function scan(values: Float64Array, length: number, before: number, high: number, low: number) {
  let quantum = Number.POSITIVE_INFINITY;
  let reached = false;
  let previous = before;
  for (let at = 0; at < length; at++) {
    const value = values[at]!;
    const step = Math.abs(value - previous);
    if (step < quantum && step > 0) quantum = step;
    if (value >= high || value <= low) reached = true;
    previous = value;
  }
  return { quantum, reached };
}
