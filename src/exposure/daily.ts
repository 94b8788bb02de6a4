// Daily exposure A(8): what a day of several operations comes to, spread over the reference of eight hours.
import { nonNegative } from './non-negative.js';

/** T0, the reference duration of eight hours, in ms. */
export const REFERENCE_MS = 28_800_000;

/** One operation of a day: one magnitude for one time. */
export interface Operation {
  /** Vibration total value a_hv in m/s², at least 0. */
  readonly magnitude: number;
  /** Trigger time in ms, at least 0. */
  readonly triggerMs: number;
}

/**
 * A(8) in m/s² of one operation alone: a_hv · sqrt(T / T0). ISO 5349-1:2001, clause 5.
 * Throws RangeError where magnitude or time is negative or no number.
 */
export function partialExposure(operation: Operation): number {
  return dailyExposure([operation]);
}

/**
 * A(8) in m/s² of a day: sqrt((1 / T0) · Σ a_hvi² · Ti), 0 for a day without operations. ISO 5349-1:2001, clause 5.
 * Throws RangeError where a magnitude or time is negative or no number.
 */
export function dailyExposure(operations: readonly Operation[]): number {
  let energy = 0;
  for (const { magnitude, triggerMs } of operations) {
    nonNegative('A magnitude in m/s²', magnitude);
    nonNegative('A trigger time in ms', triggerMs);
    energy += magnitude * magnitude * triggerMs;
  }
  return Math.sqrt(energy / REFERENCE_MS);
}
