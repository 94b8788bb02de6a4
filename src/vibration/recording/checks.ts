// What the samples themselves tell of the recording's faults: overload, dead sensors, too little of it, too low a rate.
import { FULL_RATE_HZ, LEAST_RATE_HZ } from '../weighting/design.js';
import { AXES, type Axis } from '../weighting/filter.js';
import { AxisCheck, CLIPPED_RUN, type FullScale } from './axis-check.js';
import { counted, finding, shown } from './findings.js';
import type { Block, Finding } from './recording.js';

/** A shorter one holds hardly a few periods of the lowest band, 6.3 Hz, beside the time that the filter needs to settle. */
export const LEAST_DURATION_S = 1;
/** Of the rate: what is above is bent or cut by the recorder's own filter. */
const USABLE_PART = 0.4;

export function rateFindings(rateHz: number): Finding[] {
  if (rateHz >= FULL_RATE_HZ) return [];
  const usable = `its samples tell of vibration up to ${shown(USABLE_PART * rateHz)} Hz, and hand-arm vibration reaches 1250 Hz`;
  return rateHz < LEAST_RATE_HZ
    ? [
        finding(
          'refuses',
          'rate-too-low',
          `${shown(rateHz)} Hz is too low a rate: ${usable}. Record with ${FULL_RATE_HZ} Hz or more.`,
        ),
      ]
    : [
        finding(
          'doubts',
          'rate-low',
          `${shown(rateHz)} Hz is a low rate: ${usable}. What is above is missing from the values; record with ${FULL_RATE_HZ} Hz or more.`,
        ),
      ];
}

export function axesFindings(present: readonly Axis[]): Finding[] {
  const missing = AXES.filter((axis) => !present.includes(axis));
  if (missing.length === 0) return [];
  const axes = missing.length === 1 ? `axis ${missing[0]} is` : `axes ${missing.join(' and ')} are`;
  return [
    finding(
      'doubts',
      'axes-missing',
      `The ${axes} missing and taken as 0: the total value is not complete. Record all three axes.`,
    ),
  ];
}

export class SignalChecks {
  private readonly axes: readonly (readonly [Axis, AxisCheck])[];
  private frames = 0;
  private ended = false;

  /** fullScale: null where the container does not tell it. */
  constructor(
    private readonly rateHz: number,
    present: readonly Axis[],
    private readonly fullScale: FullScale | null,
  ) {
    this.axes = present.map((axis) => [axis, new AxisCheck()] as const);
  }

  take({ samples, length, begins }: Block): void {
    for (const [axis, check] of this.axes) check.take(samples[axis], length, begins);
    this.frames += length;
  }

  end(): void {
    this.ended = true;
  }

  findings(): Finding[] {
    return [...this.axes.flatMap(([axis, check]) => this.clipped(axis, check)), ...(this.ended ? this.atEnd() : [])];
  }

  private clipped(axis: Axis, check: AxisCheck): Finding[] {
    const clipping = check.clipping(this.fullScale);
    if (clipping === null) return [];
    const where = `${CLIPPED_RUN} or more samples in a row at ${shown(clipping.level)} m/s², ${counted(clipping.runs, 'time')}`;
    return [
      finding(
        'doubts',
        'clipped',
        `Axis ${axis} is clipped: ${where}, the first ${shown(clipping.at / this.rateHz)} s into the samples. Record with a wider range.`,
      ),
    ];
  }

  private atEnd(): Finding[] {
    if (this.frames === 0) return [finding('refuses', 'empty', 'There is not one sample in it. Record again.')];
    const flat = this.axes.filter(([, check]) => check.flat);
    const weight = flat.length === this.axes.length ? 'refuses' : 'doubts';
    const still = flat.map(([axis]) =>
      finding(
        weight,
        'axis-flat',
        `Axis ${axis} never changes: no sensor at rest does that. Look for a loose cable or a wrong channel.`,
      ),
    );
    const durationS = this.frames / this.rateHz;
    if (durationS >= LEAST_DURATION_S) return still;
    const lasts = `It lasts ${shown(durationS)} s, less than the ${LEAST_DURATION_S} s that the lowest frequencies need.`;
    return [...still, finding('doubts', 'too-short', `${lasts} Record for longer.`)];
  }
}
