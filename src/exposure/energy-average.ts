// One magnitude from several samples of an operation, each weighted by its duration.
import { nonNegative } from './non-negative.js';

/** One measured sample: magnitude in m/s², duration in ms, both at least 0. */
export interface Sample {
  readonly magnitude: number;
  readonly durationMs: number;
}

/**
 * Energy average in m/s²: sqrt((1 / T) · Σ a_hwj² · tj), T = Σ tj. The form of ISO 5349-2:2001 (from memory).
 * Throws RangeError where a value is negative or no number, or where the samples last no time at all.
 */
export function energyAverage(samples: readonly Sample[]): number {
  let energy = 0;
  let totalMs = 0;
  for (const { magnitude, durationMs } of samples) {
    nonNegative('A magnitude in m/s²', magnitude);
    nonNegative('A duration in ms', durationMs);
    energy += magnitude * magnitude * durationMs;
    totalMs += durationMs;
  }
  if (totalMs === 0) {
    throw new RangeError('An average needs at least one sample that lasts longer than 0 ms.');
  }
  return Math.sqrt(energy / totalMs);
}
