// CEL-1, TAL-1: what a voltage means to a device, and when a sleeping one looks at its cell again.
import { expect, test } from 'vitest';
import { THRESHOLD_MV } from '../../sim/cell/crossing.js';
import { cellLevel, holds, isPoor, LOW_MV, nextLookMs, SAFE_MV } from '../../src/port/cell.js';

const MINUTE = 60_000;

function watchAt(cellMv: number) {
  return { cellMv, asleep: false, looks: 0 };
}

test.each([
  [3100, 3],
  [2800, 3],
  [2799, 2],
  [2600, 2],
  [2599, 1],
  [2400, 1],
  [2399, 0],
  [0, 0],
])('TAL-1: %i mV are level %i of a tally', (millivolts, level) => {
  expect(cellLevel(millivolts)).toBe(level);
});

test('CEL-1: below the safe voltage a cell is poor, at it no longer', () => {
  expect(isPoor(watchAt(SAFE_MV - 1))).toBe(true);
  expect(isPoor(watchAt(SAFE_MV))).toBe(false);
});

test('CEL-1: a cell holds only somewhat above the voltage at which a device falls asleep', () => {
  expect(holds(watchAt(SAFE_MV + 99))).toBe(false);
  expect(holds(watchAt(SAFE_MV + 100))).toBe(true);
});

test('CEL-1: looks come at growing intervals, and never more than about a minute apart', () => {
  const watch = watchAt(2300);
  const waitsMs = Array.from({ length: 10 }, () => nextLookMs(watch));
  expect(waitsMs).toEqual([1, 2, 4, 8, 16, 32, 64, 64, 64, 64].map((seconds) => seconds * 1000));
  expect(Math.max(...waitsMs)).toBeLessThan(2 * MINUTE);
  expect(nextLookMs({ ...watchAt(2300), looks: 10_000 })).toBe(64_000);
});

test('the world and the devices mean the same by their thresholds', () => {
  expect({ low: LOW_MV, safe: SAFE_MV }).toEqual({ low: THRESHOLD_MV.low, safe: THRESHOLD_MV.safe });
  expect([cellLevel(THRESHOLD_MV.full), cellLevel(THRESHOLD_MV.full - 1)]).toEqual([3, 2]);
});
