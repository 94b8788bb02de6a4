import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chargeAt, LOAD_MICROAMPS, newCell, setLoad, voltageMv } from '../../../sim/cell/cell.js';
import { nextCrossingMs, THRESHOLD_MV } from '../../../sim/cell/crossing.js';
import { CAPACITY_NC } from '../../../sim/cell/curve.js';

const HOUR_MS = 3_600_000;
const { resting, running, peak } = LOAD_MICROAMPS;
const THRESHOLDS = Object.values(THRESHOLD_MV);

function held(mv: number): number {
  return THRESHOLDS.filter((threshold) => threshold <= mv).length;
}

/** What is left, in percent rounded down, when each threshold is crossed under the peaks by a cell that was full. */
function crossings(loadMicroamps: number): [mv: number, leftPercent: number][] {
  const cell = newCell(0, 100, loadMicroamps);
  const found: [number, number][] = [];
  for (let atMs = 0; found.length <= THRESHOLDS.length; ) {
    atMs = nextCrossingMs(cell, atMs, peak);
    if (atMs === Infinity) break;
    found.push([voltageMv(cell, atMs, peak), Math.floor((chargeAt(cell, atMs) * 100) / CAPACITY_NC)]);
  }
  return found;
}

describe('nextCrossingMs', () => {
  it.each([resting, running])(
    'finds all four thresholds of a cell that is drawn at %i µA, each where it belongs',
    (load) => {
      // Rounded down, so "below 15 %", "below 5 %", "below 1 %".
      expect(crossings(load)).toEqual([
        [THRESHOLD_MV.full - 1, 39],
        [THRESHOLD_MV.low - 1, 14],
        [THRESHOLD_MV.safe - 1, 4],
        [THRESHOLD_MV.brownOut - 1, 0],
      ]);
    },
  );

  it('finds the very ms in which a threshold that was held is not', () => {
    const load = fc.integer({ min: 1, max: 10_000 });
    fc.assert(
      fc.property(fc.nat(100), load, load, fc.nat(1000 * HOUR_MS), (percent, drawn, under, nowMs) => {
        const cell = newCell(0, percent, drawn);
        const now = held(voltageMv(cell, nowMs, under));
        const atMs = nextCrossingMs(cell, nowMs, under);
        expect(atMs === Infinity).toBe(now === 0);
        fc.pre(now > 0);
        expect(atMs).toBeGreaterThan(nowMs);
        expect(held(voltageMv(cell, atMs - 1, under))).toBe(now);
        expect(held(voltageMv(cell, atMs, under))).toBeLessThan(now);
      }),
    );
  });

  it('finds none where nothing is drawn, or where all are crossed', () => {
    expect(nextCrossingMs(newCell(0, 50, 0), 0, peak)).toBe(Infinity);
    expect(nextCrossingMs(newCell(0, 0, running), 0, peak)).toBe(Infinity);
  });

  it('finds the end of a device at rest later than that of one with peaks, and still before the cell is empty', () => {
    const cell = newCell(0, 1, resting);
    const atPeakMs = nextCrossingMs(cell, 0, peak);
    const atRestMs = nextCrossingMs(cell, 0, resting);
    expect(atPeakMs).toBeLessThan(atRestMs);
    expect(voltageMv(cell, atRestMs, resting)).toBe(THRESHOLD_MV.brownOut - 1);
  });

  it('finds none within months of days of 8 h running where the cell was full, and shows the end within minutes at 1 %', () => {
    let cell = newCell(0, 100, running);
    for (let day = 0; day < 38; day++) {
      expect(nextCrossingMs(cell, cell.atMs, peak) - cell.atMs).toBeGreaterThan(8 * HOUR_MS);
      cell = setLoad(cell, cell.atMs + 8 * HOUR_MS, resting);
      cell = setLoad(cell, cell.atMs + 16 * HOUR_MS, running);
    }
    expect(nextCrossingMs(newCell(0, 1, running), 0, peak)).toBeLessThan(5 * 60_000);
  });
});
