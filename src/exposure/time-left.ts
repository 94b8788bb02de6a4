// How long a tool may still run: the time to a level at its magnitude, with what the day has already used.
// Exact integers like the dose itself, always rounded down to whole ms, so that nobody is promised too much.
import { doseOf, doseOfPoints, requireDose } from './dose.js';
import { type DailyCap, levelPoints, type Regime } from './regimes.js';

/**
 * Trigger time in ms until a dose (u, already used) comes to a level (whole points) at a magnitude (tenths of m/s²,
 * 1..500); 0 where it is there or past it. From A(8), ISO 5349-1:2001, clause 5.
 * Throws RangeError outside these ranges.
 */
export function timeToPointsMs(magnitudeTenths: number, points: number, usedDose: number): number {
  requireDose(usedDose);
  const dosePerMs = doseOf(magnitudeTenths, 1);
  const left = Math.max(0, doseOfPoints(points) - usedDose);
  return (left - (left % dosePerMs)) / dosePerMs;
}

/** Trigger time in ms that a cap on the day leaves after usedMs (whole ms, at least 0) on all tools together. */
export function timeUnderCapMs(cap: DailyCap, usedMs: number): number {
  if (!Number.isInteger(usedMs) || usedMs < 0) {
    throw new RangeError(`A time is a whole number of milliseconds, at least 0, not ${usedMs}.`);
  }
  return Math.max(0, cap.ms - usedMs);
}

/** What a day has used so far: dose in u, and the trigger time in ms behind it. */
export interface Used {
  readonly dose: number;
  readonly triggerMs: number;
}

/**
 * Trigger time in ms left at a magnitude (tenths of m/s²) until the regime's limit: the time to its limit value
 * (200 / a² hours from an unused day), or what its cap on the day leaves where that is less.
 * Japan, Ministry of Health, Labour and Welfare, notice 0710-2, for the cap. Throws RangeError as the functions above,
 * or where the regime has no limit value.
 */
export function timeToLimitMs(magnitudeTenths: number, regime: Regime, used: Used): number {
  const byDose = timeToPointsMs(magnitudeTenths, levelPoints(regime, 'limit'), used.dose);
  return regime.dailyCap === null ? byDose : Math.min(byDose, timeUnderCapMs(regime.dailyCap, used.triggerMs));
}
