// Accumulation (ACC-1, ACC-2, MAG-5, MAG-6): running windows into dose, exactly, at the magnitude in force when each began.
import { MAX_DOSE } from '../exposure/dose.js';
import { largest, MAX_WINDOWS, REPORT_BITS } from '../link/layout.js';
import type { Sums } from '../port/inner.js';
import { WINDOW_MS } from '../port/port.js';

const MAX_SHORT_BURSTS = largest(REPORT_BITS.shortBursts);

export function noSums(): Sums {
  return { dose: 0, triggerWindows: 0, unratedWindows: 0, shortBursts: 0 };
}

/** Tenths of m/s², 0 for none committed. Windows before `sinceWindow` are counted at the previous magnitude. */
export interface Rate {
  tenths: number;
  previousTenths: number;
  sinceWindow: number;
}

/** Puts a magnitude in force for the windows that begin at or after nowMs. */
export function changeRate(rate: Rate, tenths: number, nowMs: number): void {
  rate.previousTenths = rate.tenths;
  rate.tenths = tenths;
  rate.sinceWindow = Math.ceil(nowMs / WINDOW_MS);
}

/** Counts `windows` running windows, the first of which has the index firstWindow since boot. */
export function count(sums: Sums, rate: Readonly<Rate>, firstWindow: number, windows: number): void {
  const old = Math.min(windows, Math.max(0, rate.sinceWindow - firstWindow));
  if (old > 0) add(sums, rate.previousTenths, old);
  if (windows > old) add(sums, rate.tenths, windows - old);
}

export function countShortBurst(sums: Sums): void {
  sums.shortBursts = Math.min(MAX_SHORT_BURSTS, sums.shortBursts + 1);
}

function add(sums: Sums, tenths: number, windows: number): void {
  sums.triggerWindows = Math.min(MAX_WINDOWS, sums.triggerWindows + windows);
  if (tenths === 0) sums.unratedWindows = Math.min(MAX_WINDOWS, sums.unratedWindows + windows);
  sums.dose = Math.min(MAX_DOSE, sums.dose + tenths * tenths * WINDOW_MS * windows);
}

/** ACC-2: a sum stands at its end, and says so. Unrated time is a part of the trigger time. */
export function isSaturated(sums: Readonly<Sums>): boolean {
  return sums.dose === MAX_DOSE || sums.triggerWindows === MAX_WINDOWS;
}
