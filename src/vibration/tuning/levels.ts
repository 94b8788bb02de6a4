// A recording as a counter's front end would tell it: the band-limited r.m.s. of windows of 100 ms, unweighted. A counter's sensor
// gives one value a window, so the three axes are added by their energies.
import type { Finding, Recording } from '../recording/recording.js';
import { designWeighting } from '../weighting/design.js';
import { noSquares, type Samples, WeightingFilter } from '../weighting/filter.js';

export const WINDOW_MS = 100;
export const WINDOWS_A_SECOND = 1000 / WINDOW_MS;

/** The filter settles so long on the mean of the first block, so that gravity is no start. */
const SETTLING_S = 0.5;

export interface RecordedLevels {
  readonly name: string;
  /** mm/s², one a window; a part of one at the end is left out. */
  readonly levels: readonly number[];
  readonly findings: readonly Finding[];
}

/**
 * Null where a finding refuses a value. Times after a gap are not those of the marks, so a recording is read up to its first, and
 * that is said.
 */
export async function windowLevels(recording: Recording): Promise<RecordedLevels | null> {
  const { rateHz, name } = recording;
  if (recording.findings.some(({ weight }) => weight === 'refuses')) return null;
  const windows = new Windows(rateHz);
  const own: Finding[] = [];
  for await (const { samples, length, begins } of recording.blocks()) {
    // It is read to its end all the same: what is wrong with it may be found only there.
    if (own.length > 0) continue;
    if (begins && windows.begun) {
      const says = `there is a gap at ${(windows.frames / rateHz).toFixed(1)} s: what comes after it is not used`;
      own.push({ weight: 'doubts', what: 'gap-ends-levels', says });
      continue;
    }
    windows.take(samples, length);
  }
  const findings = [...recording.findings, ...own];
  if (windows.levels.length === 0 || findings.some(({ weight }) => weight === 'refuses')) return null;
  return { name, levels: windows.levels, findings };
}

class Windows {
  readonly levels: number[] = [];
  frames = 0;
  begun = false;
  private readonly filter: WeightingFilter;
  private power = 0;

  constructor(private readonly rateHz: number) {
    this.filter = new WeightingFilter(designWeighting(rateHz));
  }

  take(samples: Samples, length: number): void {
    if (!this.begun) this.settle(samples, length);
    for (let at = 0; at < length; ) {
      const to = Math.min(length, at + this.edge(this.levels.length + 1) - this.frames);
      const squares = noSquares();
      this.filter.pass(samples, at, to, squares);
      this.power += squares.band[0]! + squares.band[1]! + squares.band[2]!;
      this.frames += to - at;
      at = to;
      if (this.frames === this.edge(this.levels.length + 1)) this.close();
    }
  }

  private settle(samples: Samples, length: number): void {
    const count = Math.round(SETTLING_S * this.rateHz);
    const still = (values: Float64Array) =>
      new Float64Array(count).fill(values.subarray(0, length).reduce((sum, value) => sum + value, 0) / length);
    this.filter.settle({ x: still(samples.x), y: still(samples.y), z: still(samples.z) }, count);
    this.begun = true;
  }

  /** Frames before a window; at some rates windows differ by one. */
  private edge(window: number): number {
    return Math.round((window * this.rateHz) / WINDOWS_A_SECOND);
  }

  private close(): void {
    const window = this.levels.length;
    const frames = this.edge(window + 1) - this.edge(window);
    this.levels.push(Math.round(1000 * Math.sqrt(this.power / frames)));
    this.power = 0;
  }
}
