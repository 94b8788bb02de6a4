// The front end of a counter's sensor: samples in, levels of windows out. Band-limited to 6.3..1250 Hz (ISO 8041-1:2017: corners at
// 10^0.8 and 10^3.1 Hz, second order, Q = 1/√2) at RATE_HZ; no weighting.
import { acceleration, type Motion, type Sensor } from './acceleration.js';

/** b0 · (1 + b1/z + 1/z²) / (1 + a1/z + a2/z²), where b1 is -2 for a high-pass, 2 for a low-pass. */
interface Section {
  readonly b0: number;
  readonly b1: number;
  readonly a1: number;
  readonly a2: number;
}

// Bilinear transform at 8000 Hz, prewarped at the corner f, once and for all, as tan is not the same on every machine:
// k = tan(π f / 8000), a0 = 1 + √2 k + k², a1 = 2(k² − 1)/a0, a2 = (1 − √2 k + k²)/a0, b0 = 1/a0 and k²/a0.
const HIGH_PASS: Section = { b0: 0.9965020451039754, b1: -2, a1: -1.992991854482068, a2: 0.9930163259338336 };
const LOW_PASS: Section = { b0: 0.14153467930621794, b1: 2, a1: -0.6911874119853478, a2: 0.2573261292102196 };
const GAIN = HIGH_PASS.b0 * LOW_PASS.b0;

/** Ringing of the high-pass has died down to 0.02 % after it. */
export const SETTLE_MS = 300;

/** What a front end remembers of the samples that have passed, as plain data. */
export interface FrontEndState {
  readonly h1: number;
  readonly h2: number;
  readonly l1: number;
  readonly l2: number;
}

export class FrontEnd {
  constructor(private remembered: FrontEndState = { h1: 0, h2: 0, l1: 0, l2: 0 }) {}

  state(): FrontEndState {
    return this.remembered;
  }

  /** Takes samples, m/s², and returns their band-limited r.m.s. in mm/s², rounded: the level of the window that they are. */
  level(samples: Float64Array): number {
    let { h1, h2, l1, l2 } = this.remembered;
    let squares = 0;
    for (let index = 0; index < samples.length; index++) {
      const input = samples[index]!;
      const high = input + h1;
      h1 = HIGH_PASS.b1 * input - HIGH_PASS.a1 * high + h2;
      h2 = input - HIGH_PASS.a2 * high;
      const band = high + l1;
      l1 = LOW_PASS.b1 * high - LOW_PASS.a1 * band + l2;
      l2 = high - LOW_PASS.a2 * band;
      squares += band * band;
    }
    this.remembered = { h1, h2, l1, l2 };
    return Math.round(1000 * GAIN * Math.sqrt(squares / samples.length));
  }
}

/** A front end that has listened for SETTLE_MS before atMs. */
export function settledFrontEnd(sensor: Sensor, motions: readonly Motion[], atMs: number): FrontEnd {
  const frontEnd = new FrontEnd();
  const sinceMs = Math.max(0, atMs - SETTLE_MS);
  if (sinceMs < atMs) frontEnd.level(acceleration(sensor, motions, sinceMs, atMs));
  return frontEnd;
}
