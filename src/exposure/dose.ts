// The exact integer that devices accumulate. Its unit is u = (0.1 m/s²)² · ms, so that sums of whole tenths and whole
// milliseconds are exact: no rounding, no drift, the same on every machine.

/** n = 2 · a² · T (a in m/s², T in hours) makes one point 180 000 000 u. */
export const U_PER_POINT = 180_000_000;

/** Largest dose that devices keep, in u: 52 bits. */
export const MAX_DOSE = 2 ** 52 - 1;

/** Largest magnitude that a dose is made of, in tenths of m/s². */
export const MAX_MAGNITUDE_TENTHS = 500;

/**
 * Dose in u of a magnitude (tenths of m/s², 1..500) held for a time (whole ms, at least 0).
 * Throws RangeError outside these ranges, or where the dose would not fit 52 bits. There is no dose of an unknown
 * magnitude: unrated time is kept as time (MAG-6), so 0 tenths is refused.
 */
export function doseOf(magnitudeTenths: number, ms: number): number {
  if (!Number.isInteger(magnitudeTenths) || magnitudeTenths < 1 || magnitudeTenths > MAX_MAGNITUDE_TENTHS) {
    throw new RangeError(`A magnitude is a whole number of tenths of m/s² from 1 to 500, not ${magnitudeTenths}.`);
  }
  if (!Number.isInteger(ms) || ms < 0) {
    throw new RangeError(`A time is a whole number of milliseconds, at least 0, not ${ms}.`);
  }
  const dose = magnitudeTenths * magnitudeTenths * ms;
  if (dose > MAX_DOSE) {
    throw new RangeError(`${magnitudeTenths} tenths of m/s² for ${ms} ms is more than a dose of 52 bits can hold.`);
  }
  return dose;
}

/**
 * Sum of two doses in u, held at MAX_DOSE where it would be more (ACC-2): a sum that equals MAX_DOSE has saturated.
 * Throws RangeError where either is no dose.
 */
export function addDose(dose: number, more: number): number {
  requireDose(dose);
  requireDose(more);
  return Math.min(dose + more, MAX_DOSE);
}

/** Whole points of a dose in u, truncated, as a display shows them (ACC-3). Throws RangeError where it is no dose. */
export function wholePoints(dose: number): number {
  requireDose(dose);
  // Taking the remainder off first keeps the division exact.
  return (dose - (dose % U_PER_POINT)) / U_PER_POINT;
}

/**
 * Dose in u at which a day has made so many points (whole, at least 0), to compare with the exact dose.
 * Throws RangeError where it is no such number, or where the dose would not fit 52 bits.
 */
export function doseOfPoints(points: number): number {
  const dose = points * U_PER_POINT;
  if (!Number.isInteger(points) || points < 0 || dose > MAX_DOSE) {
    throw new RangeError(`A level is a whole number of points, at least 0 and within 52 bits of dose, not ${points}.`);
  }
  return dose;
}

/** Throws RangeError unless the value is a whole number of u from 0 to MAX_DOSE. */
export function requireDose(dose: number): void {
  if (!Number.isInteger(dose) || dose < 0 || dose > MAX_DOSE) {
    throw new RangeError(`A dose is a whole number of u from 0 to ${MAX_DOSE}, not ${dose}.`);
  }
}
