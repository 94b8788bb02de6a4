// The third-octave spectrum of one axis, 6.3 to 1250 Hz: power spectra of overlapping segments under a Hann window are averaged
// (Welch's method), and what lies between the edges of a band is summed.
import FFT from 'fft.js';
import { THIRD_OCTAVES } from '../weighting/bands.js';
import { Decimator } from './decimator.js';

/** Between lines: the band of 6.3 Hz is 1.5 Hz wide. So a segment has 2.5 s or more. */
const MOST_LINE_HZ = 0.4;
/** Samples taken at a time. */
const PART = 65_536;

export class Spectrum {
  private readonly decimator: Decimator;
  private readonly fft: FFT;
  private readonly window: Float64Array;
  private readonly segment: Float64Array;
  private readonly input: Float64Array;
  private readonly output: number[];
  private readonly kept: Float64Array;
  /** Sum over all segments of |X|², by line. */
  private readonly power: Float64Array;
  private filled = 0;
  private segments = 0;

  constructor(rateHz: number) {
    this.decimator = new Decimator(rateHz);
    let size = 2;
    while (this.decimator.rateHz / size > MOST_LINE_HZ) size *= 2;
    this.fft = new FFT(size);
    this.window = Float64Array.from({ length: size }, (_, at) => 0.5 - 0.5 * Math.cos((2 * Math.PI * at) / size));
    this.segment = new Float64Array(size);
    this.input = new Float64Array(size);
    this.output = this.fft.createComplexArray();
    this.kept = new Float64Array(Math.ceil(PART / this.decimator.factor) + 1);
    this.power = new Float64Array(size / 2 + 1);
  }

  /** A new stretch begins: no segment reaches over a gap. */
  begin(): void {
    this.filled = 0;
    this.decimator.begin();
  }

  take(samples: Float64Array, from: number, to: number): void {
    for (let part = from; part < to; part += PART) {
      const count = this.decimator.take(samples, part, Math.min(to, part + PART), this.kept);
      for (let at = 0; at < count; ) {
        const room = Math.min(count - at, this.segment.length - this.filled);
        this.segment.set(this.kept.subarray(at, at + room), this.filled);
        this.filled += room;
        at += room;
        if (this.filled === this.segment.length) this.close();
      }
    }
  }

  /** R.m.s. of each band, m/s², in the order of THIRD_OCTAVES; null where no segment was full. */
  bands(): readonly number[] | null {
    if (this.segments === 0) return null;
    const { length } = this.segment;
    const lineHz = this.decimator.rateHz / length;
    const windowPower = this.window.reduce((sum, value) => sum + value ** 2, 0);
    const scale = 2 / (this.segments * windowPower * length);
    return THIRD_OCTAVES.map(({ centreHz }) => {
      const half = 10 ** 0.05;
      return Math.sqrt(scale * this.between(centreHz / half / lineHz, (centreHz * half) / lineHz));
    });
  }

  /** Sum over the lines between two places; a line reaches half a line to each side, and counts with the part that lies inside. */
  private between(low: number, high: number): number {
    let sum = 0;
    const last = Math.min(this.power.length - 1, Math.ceil(high + 0.5));
    for (let line = Math.max(1, Math.floor(low - 0.5)); line <= last; line++) {
      const part = Math.min(high, line + 0.5) - Math.max(low, line - 0.5);
      if (part > 0) sum += part * this.power[line]!;
    }
    return sum;
  }

  private close(): void {
    const { segment, window, input, output, power } = this;
    const half = segment.length / 2;
    for (let at = 0; at < segment.length; at++) input[at] = segment[at]! * window[at]!;
    this.fft.realTransform(output, input);
    for (let line = 0; line <= half; line++)
      power[line] = power[line]! + output[2 * line]! ** 2 + output[2 * line + 1]! ** 2;
    this.segments += 1;
    segment.copyWithin(0, half);
    this.filled = half;
  }
}
