// How exposures, points and times read in a sentence. What is shown never runs ahead of the exact value where a limit
// hangs on it: points and times left are cut off, not rounded up.
import { pointTenths } from '../../exposure/points.js';

const HOUR_MS = 3_600_000;
const MINUTE_MS = 60_000;
const DAY_MS = 24 * HOUR_MS;

/** "298.0 points" of a dose in u, cut off after one decimal; a dose too small for that is not shown as none. */
export function pointsText(dose: number): string {
  const tenths = pointTenths(dose);
  return tenths === 0 && dose > 0 ? 'less than 0.1 points' : `${(tenths / 10).toFixed(1)} points`;
}

/** "A(8) 4.32 m/s²", rounded to two decimals. */
export function a8Text(a8: number): string {
  return `A(8) ${a8.toFixed(2)} m/s²`;
}

/** "4.0 m/s²", exact. */
export function magnitudeText(magnitude: number): string {
  return `${magnitude.toFixed(1)} m/s²`;
}

/** "2 h 30 min", "11 min 15 s" or "45 s" of a time in ms, exact down to the thousandth of a second. */
export function timeText(ms: number): string {
  const hours = Math.floor(ms / HOUR_MS);
  const minutes = Math.floor((ms % HOUR_MS) / MINUTE_MS);
  const seconds = (ms % MINUTE_MS) / 1000;
  const parts = [hours > 0 && `${hours} h`, minutes > 0 && `${minutes} min`, seconds > 0 && `${seconds} s`];
  return parts.filter((part) => part !== false).join(' ') || '0 s';
}

/** A time left, cut off to whole minutes from an hour on, to whole seconds below; beyond a day it only says so. */
export function timeLeftText(ms: number): string {
  if (ms > DAY_MS) return 'more than 24 h';
  if (ms === 0) return 'no time';
  const step = ms >= HOUR_MS ? MINUTE_MS : 1000;
  return ms < step ? 'less than 1 s' : timeText(ms - (ms % step));
}
