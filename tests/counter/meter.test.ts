// ACC-1, ACC-2, MAG-5, MAG-6: windows into dose, exact to the last u, and what happens at the ends of the numbers.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { changeRate, count, countShortBurst, isSaturated, noSums, type Rate } from '../../src/counter/meter.js';
import { expectSameHoweverCut } from '../laws/splitting.js';

const MAX_DOSE = 2 ** 52 - 1;
const MAX_WINDOWS = 2 ** 28 - 1;

function rateOf(tenths: number): Rate {
  return { tenths, previousTenths: tenths, sinceWindow: 0 };
}

function counted(rate: Rate, windows: number, firstWindow = 0) {
  const sums = noSums();
  count(sums, rate, firstWindow, windows);
  return sums;
}

test('ACC-1: dose is a² · Δt in (0.1 m/s²)²·ms', () => {
  expect(counted(rateOf(120), 1).dose).toBe(120 * 120 * 100);
  // UK Health and Safety Executive, ready reckoner, worked illustration: 5 m/s² for 3 h are 150 points of 180 000 000 u.
  expect(counted(rateOf(50), 3 * 36_000).dose).toBe(150 * 180_000_000);
});

test('ACC-1: any magnitude and any number of windows, exact', () => {
  fc.assert(
    fc.property(fc.integer({ min: 5, max: 500 }), fc.integer({ min: 1, max: 10_000_000 }), (tenths, windows) => {
      const dose = BigInt(tenths) ** 2n * 100n * BigInt(windows);
      expect(counted(rateOf(tenths), windows)).toEqual({
        dose: Number(dose < BigInt(MAX_DOSE) ? dose : BigInt(MAX_DOSE)),
        triggerWindows: windows,
        unratedWindows: 0,
        shortBursts: 0,
      });
    }),
  );
});

test('ACC-2: the dose fills 52 bits, stands there, and says so', () => {
  const sums = { ...noSums(), dose: MAX_DOSE - 25 };
  count(sums, rateOf(5), 0, 1);
  expect(sums.dose).toBe(MAX_DOSE);
  expect(isSaturated(sums)).toBe(true);
  count(sums, rateOf(500), 1, 1_000_000);
  expect(sums.dose).toBe(MAX_DOSE);
  expect(isSaturated({ ...sums, dose: MAX_DOSE - 1 })).toBe(false);
});

test('ACC-2: 5 000 hours at 50 m/s² fit, as the brief says', () => {
  const sums = counted(rateOf(500), 5_000 * 36_000);
  expect(sums.dose).toBe(4_500_000_000_000_000);
  expect(isSaturated(sums)).toBe(false);
});

test('ACC-2: trigger time fills 28 bits, stands there, and says so', () => {
  const sums = { ...noSums(), triggerWindows: MAX_WINDOWS - 1, unratedWindows: MAX_WINDOWS - 1 };
  expect(isSaturated(sums)).toBe(false);
  count(sums, rateOf(0), 0, 7);
  expect(sums).toEqual({ ...noSums(), triggerWindows: MAX_WINDOWS, unratedWindows: MAX_WINDOWS });
  expect(isSaturated(sums)).toBe(true);
});

test('TRG-3: short bursts fill 16 bits and stand there', () => {
  const sums = { ...noSums(), shortBursts: 65_534 };
  countShortBurst(sums);
  countShortBurst(sums);
  expect(sums.shortBursts).toBe(65_535);
});

test('MAG-6: windows without a magnitude are trigger time, unrated, and no dose', () => {
  expect(counted(rateOf(0), 7)).toEqual({ dose: 0, triggerWindows: 7, unratedWindows: 7, shortBursts: 0 });
});

test('MAG-5: a window belongs to the magnitude in force when it began', () => {
  const rate = rateOf(50);
  changeRate(rate, 100, 250);
  // Windows 1 and 2 began at 100 and 200 ms, before the change; window 3 began at 300 ms.
  expect(counted(rate, 1, 2).dose).toBe(2_500 * 100);
  expect(counted(rate, 1, 3).dose).toBe(10_000 * 100);
  expect(counted(rate, 3, 1).dose).toBe((2 * 2_500 + 10_000) * 100);
});

test('MAG-5: a window that begins with the change is counted at the new magnitude', () => {
  const rate = rateOf(50);
  changeRate(rate, 100, 300);
  expect(counted(rate, 1, 2).dose).toBe(2_500 * 100);
  expect(counted(rate, 1, 3).dose).toBe(10_000 * 100);
});

test('MAG-5: the same after a second change', () => {
  const rate = rateOf(50);
  changeRate(rate, 100, 300);
  changeRate(rate, 70, 1000);
  expect(counted(rate, 2, 9).dose).toBe((10_000 + 4_900) * 100);
});

test('MAG-6: with the first magnitude committed, earlier windows stay unrated', () => {
  const rate = rateOf(0);
  changeRate(rate, 50, 200);
  expect(counted(rate, 5, 0)).toEqual({ dose: 3 * 2_500 * 100, triggerWindows: 5, unratedWindows: 2, shortBursts: 0 });
});

test('however a run of windows is cut, the same is counted', () => {
  const changed = rateOf(73);
  changeRate(changed, 0, 1_050);
  const takeIn = (runs: readonly { readonly item: number; readonly length: number }[]) => {
    const sums = noSums();
    let at = 0;
    for (const { length } of runs) {
      count(sums, changed, at, length);
      at += length;
    }
    return sums;
  };
  expectSameHoweverCut(fc.constant(0), 12, takeIn);
});
