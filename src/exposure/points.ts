// Exposure points: the scale on which 100 is the action value, 400 the limit value, and operations simply add up.
import { type Operation, REFERENCE_MS } from './daily.js';
import { requireDose, U_PER_POINT } from './dose.js';
import { nonNegative } from './non-negative.js';

const HOUR_MS = 3_600_000;
const HOURS_OF_REFERENCE = REFERENCE_MS / HOUR_MS;

/**
 * Points that a magnitude makes in an hour: 2 · a_hv², a_hv in m/s², at least 0.
 * From A(8) (ISO 5349-1:2001, clause 5) and 100 points at 2.5 m/s² (UK Health and Safety Executive, ready reckoner).
 * Throws RangeError where the magnitude is negative or no number.
 */
export function pointsPerHour(magnitude: number): number {
  nonNegative('A magnitude in m/s²', magnitude);
  return 2 * magnitude * magnitude;
}

/**
 * Points of one operation, n = 2 · a_hv² · T with T in hours, not rounded; the points of a day are their sum.
 * Source and errors as for pointsPerHour, the same for the time.
 */
export function pointsOf({ magnitude, triggerMs }: Operation): number {
  return (pointsPerHour(magnitude) * nonNegative('A trigger time in ms', triggerMs)) / HOUR_MS;
}

/** Points of a dose in u as a fraction, for showing and for A(8); limits compare the dose itself (ACC-3). */
export function pointsOfDose(dose: number): number {
  requireDose(dose);
  return dose / U_PER_POINT;
}

/** Whole tenths of a point in a dose in u, truncated: what is shown with one decimal never runs ahead of the dose. */
export function pointTenths(dose: number): number {
  requireDose(dose);
  const unit = U_PER_POINT / 10;
  return (dose - (dose % unit)) / unit;
}

/**
 * A(8) in m/s² that a day's points stand for: n = 2 · A(8)² · 8, so 100 points are 2.5 m/s² and 400 are 5 m/s².
 * Throws RangeError where the points are negative or no number.
 */
export function exposureOfPoints(points: number): number {
  nonNegative('A number of points', points);
  return Math.sqrt(points / (2 * HOURS_OF_REFERENCE));
}
