// One recording to its values: frequency-weighted and band-limited r.m.s. of each axis, the vibration total value, the greatest
// running r.m.s., crest factors, and the third-octave spectrum with a_hw computed from it, as a second way (ISO 5349-1:2001).
import { totalValue } from '../../exposure/total-value.js';
import type { Finding, Recording } from '../recording/recording.js';
import { weightedFromBands } from '../weighting/bands.js';
import { designWeighting } from '../weighting/design.js';
import { AXES, type Axis, noSquares, type Samples, WeightingFilter } from '../weighting/filter.js';
import { evenness, weakAxes } from './plausible.js';
import { RunningMean } from './running.js';
import { Spectrum } from './spectrum.js';
import { type Stretch, type Survey, survey } from './survey.js';

/** All in m/s² but for the crest factor. */
export interface AxisValues {
  /** a_hw of this axis. */
  readonly weighted: number;
  /** Band-limited to 6.3..1250 Hz, not weighted. */
  readonly band: number;
  /** Greatest weighted value over weighted r.m.s. */
  readonly crestFactor: number;
  /** The mean that was taken off: the largest over the stretches. */
  readonly offset: number;
  /** R.m.s. of the third-octave bands from 6.3 to 1250 Hz; null where the recording is too short for it. */
  readonly bands: readonly number[] | null;
  /** a_hw from these bands. */
  readonly weightedFromBands: number | null;
}

export interface Measured {
  readonly name: string;
  readonly rateHz: number;
  readonly durationS: number;
  readonly axes: Readonly<Record<Axis, AxisValues>>;
  /** a_hv, the vibration total value (ISO 5349-1:2001, 4.5), m/s². */
  readonly total: number;
  /** Greatest total value of any second, m/s²; null where there is no whole second once the filter has settled. */
  readonly greatestSecond: number | null;
  readonly findings: readonly Finding[];
}

/**
 * The filter hears the first half second of each stretch backwards before it counts: its energy is as if it had always listened.
 * The seam is a kink, so neither a peak nor a greatest second is looked for until as long after it.
 */
const SETTLING_S = 0.5;

/**
 * A shorter stretch between two gaps holds too little of the low frequencies once its mean is off: it counts only where there is no
 * longer one.
 */
const LEAST_STRETCH_S = 1;

/** Null where a finding refuses a value. Reads the recording twice. */
export async function measure(recording: Recording): Promise<Measured | null> {
  if (recording.findings.some(isRefusal)) return null;
  const looked = await survey(recording);
  if (looked.frames === 0 || recording.findings.some(isRefusal)) return null;
  const pass = new Pass(recording.rateHz, looked);
  for await (const { samples, length, begins } of recording.blocks()) pass.take(samples, length, begins);
  if (recording.findings.some(isRefusal)) return null;
  return pass.values(recording, looked);
}

function leftOut(count: number): readonly Finding[] {
  if (count === 0) return [];
  const says = `${count} stretches between gaps are shorter than ${LEAST_STRETCH_S} s, and left out`;
  return [{ weight: 'doubts', what: 'short-stretches', says }];
}

function isRefusal({ weight }: Finding): boolean {
  return weight === 'refuses';
}

class Pass {
  private readonly filter: WeightingFilter;
  private readonly squares = noSquares();
  private readonly running: RunningMean;
  private readonly spectra: Readonly<Record<Axis, Spectrum>>;
  private readonly own: Record<Axis, Float64Array> = {
    x: new Float64Array(0),
    y: new Float64Array(0),
    z: new Float64Array(0),
  };
  private readonly leastFrames: number;
  private stretch = -1;
  /** Samples of the present stretch. */
  private passed = 0;

  constructor(
    private readonly rateHz: number,
    private readonly looked: Survey,
  ) {
    const longest = looked.stretches.reduce((most, { frames }) => Math.max(most, frames), 0);
    this.leastFrames = Math.min(longest, Math.ceil(LEAST_STRETCH_S * rateHz));
    this.filter = new WeightingFilter(designWeighting(rateHz));
    this.running = new RunningMean(rateHz);
    const spectrum = () => new Spectrum(rateHz);
    this.spectra = { x: spectrum(), y: spectrum(), z: spectrum() };
  }

  take(samples: Samples, length: number, begins: boolean): void {
    const first = begins || this.stretch === -1;
    if (first) this.stretch += 1;
    const stretch = this.looked.stretches[this.stretch];
    // The file has changed since it was looked at; the recording says so at its end.
    if (stretch === undefined || stretch.frames < this.leastFrames) return;
    this.withoutMean(samples, length, stretch);
    if (first) this.begin(length);
    for (const axis of AXES) this.spectra[axis].take(this.own[axis], 0, length);
    for (let from = 0; from < length; ) {
      const to = Math.min(length, from + this.running.room);
      this.add(from, to);
      from = to;
    }
  }

  private add(from: number, to: number): void {
    const part = noSquares();
    this.filter.pass(this.own, from, to, part);
    const settled = this.passed >= SETTLING_S * this.rateHz;
    this.passed += to - from;
    for (const index of AXES.keys()) {
      this.squares.weighted[index]! += part.weighted[index]!;
      this.squares.band[index]! += part.band[index]!;
      if (!settled) continue;
      const most = Math.max(this.squares.greatestWeighted[index]!, part.greatestWeighted[index]!);
      this.squares.greatestWeighted[index] = most;
    }
    if (settled) this.running.add(part.weighted[0]! + part.weighted[1]! + part.weighted[2]!, to - from);
  }

  values(recording: Recording, { stretches, shifts }: Survey): Measured {
    const used = stretches.filter((stretch) => stretch.frames >= this.leastFrames);
    const frames = used.reduce((sum, stretch) => sum + stretch.frames, 0);
    const axes = Object.fromEntries(
      AXES.map((axis, index) => [axis, this.axisValues(axis, index, frames, used)]),
    ) as Record<Axis, AxisValues>;
    const total = totalValue(axes.x.weighted, axes.y.weighted, axes.z.weighted);
    const shifted = shifts.map(({ axis, atS, byMs2 }): Finding => {
      const moved = `the mean of ${axis} moves by ${byMs2.toFixed(0)} m/s² about ${atS.toFixed(1)} s`;
      return {
        weight: 'doubts',
        what: 'dc-shift',
        says: `${moved}: a DC shift, as of a sensor driven too hard; measure again with a mechanical filter`,
      };
    });
    return {
      name: recording.name,
      rateHz: this.rateHz,
      durationS: frames / this.rateHz,
      axes,
      total,
      greatestSecond: this.running.greatest(),
      findings: [
        ...recording.findings,
        ...shifted,
        ...leftOut(stretches.length - used.length),
        ...evenness(this.running, total),
        ...weakAxes(axes),
      ],
    };
  }

  private axisValues(axis: Axis, index: number, frames: number, stretches: readonly Stretch[]): AxisValues {
    const weighted = Math.sqrt(this.squares.weighted[index]! / frames);
    const bands = this.spectra[axis].bands();
    const greatest = Math.sqrt(this.squares.greatestWeighted[index]!);
    return {
      weighted,
      band: Math.sqrt(this.squares.band[index]! / frames),
      crestFactor: weighted === 0 ? 0 : greatest / weighted,
      offset: stretches.reduce(
        (most, { means }) => (Math.abs(means[index]!) > Math.abs(most) ? means[index]! : most),
        0,
      ),
      bands,
      weightedFromBands: bands === null ? null : weightedFromBands(bands),
    };
  }

  /** The block with the stretch's mean taken off, in own. */
  private withoutMean(samples: Samples, length: number, { means }: Stretch): void {
    for (const [index, axis] of AXES.entries()) {
      if (this.own[axis].length < length) this.own[axis] = new Float64Array(length);
      const [from, to, mean] = [samples[axis], this.own[axis], means[index]!];
      for (let at = 0; at < length; at++) to[at] = from[at]! - mean;
    }
  }

  private begin(length: number): void {
    const count = Math.min(length, Math.round(SETTLING_S * this.rateHz));
    const backwards = (values: Float64Array) => values.slice(0, count).reverse();
    const { x, y, z } = this.own;
    this.filter.settle({ x: backwards(x), y: backwards(y), z: backwards(z) }, count);
    for (const axis of AXES) this.spectra[axis].begin();
    this.running.begin();
    this.passed = 0;
  }
}
