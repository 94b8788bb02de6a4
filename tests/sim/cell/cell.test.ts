import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chargeAt, LOAD_MICROAMPS, newCell, setLoad, voltageMv } from '../../../sim/cell/cell.js';
import { CAPACITY_NC } from '../../../sim/cell/curve.js';

const HOUR_MS = 3_600_000;
const { resting, running, peak } = LOAD_MICROAMPS;

describe('a cell', () => {
  it('loses what is drawn from it, and never more than it holds', () => {
    const cell = newCell(1000, 100, running);
    expect(chargeAt(cell, 1000)).toBe(CAPACITY_NC);
    // 400 µA for 1 h is 0.4 mAh, which is 1.44 C.
    expect(chargeAt(cell, 1000 + HOUR_MS)).toBe(CAPACITY_NC - 1_440_000_000);
    expect(chargeAt(cell, 1000 + 600 * HOUR_MS)).toBe(0);
    expect(chargeAt(cell, 1000 + 9000 * HOUR_MS)).toBe(0);
  });

  it('loses the same whether its load is told once or often', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(10 * HOUR_MS), { maxLength: 20 }), fc.nat(20_000), (stepsMs, load) => {
        const told = stepsMs.reduce((cell, stepMs) => setLoad(cell, cell.atMs + stepMs, load), newCell(0, 60, load));
        expect(told.chargeNc).toBe(chargeAt(newCell(0, 60, load), told.atMs));
      }),
    );
  });

  it('adds up what is drawn at each load', () => {
    const cell = setLoad(newCell(0, 50, resting), 16 * HOUR_MS, running);
    expect(chargeAt(cell, 24 * HOUR_MS)).toBe(CAPACITY_NC / 2 - (16 * resting + 8 * running) * HOUR_MS);
  });

  it('holds so many percent of its charge as it is given', () => {
    for (const percent of [0, 1, 3, 99, 100]) {
      expect(chargeAt(newCell(7, percent, running), 7)).toBe((CAPACITY_NC / 100) * percent);
    }
  });

  it('sags under a load, and recovers when it is gone', () => {
    const cell = newCell(0, 1, resting);
    expect(voltageMv(cell, 0, peak)).toBe(2000);
    expect(voltageMv(cell, 0, 0)).toBe(2400);
    expect(voltageMv(setLoad(cell, 1, peak), 1, resting)).toBeGreaterThan(2390);
    // So a device that starts on what it sees at rest fails again at its first peak.
    expect(voltageMv(cell, HOUR_MS, resting)).toBeGreaterThan(2300);
    expect(voltageMv(cell, HOUR_MS, peak)).toBeLessThan(2000);
  });

  it('refuses times before its last change, and a charge that no cell has', () => {
    expect(() => chargeAt(newCell(5, 100, resting), 4)).toThrow('changed at 5 ms');
    expect(() => newCell(0, 101, resting)).toThrow('101 %');
    expect(() => newCell(0, -1, resting)).toThrow('-1 %');
  });
});
