import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { doseOf, doseOfPoints, U_PER_POINT } from '../../src/exposure/dose.js';
import { type Regime, regimeById } from '../../src/exposure/regimes.js';
import { timeToLimitMs, timeToPointsMs, timeUnderCapMs } from '../../src/exposure/time-left.js';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const UNUSED = { dose: 0, triggerMs: 0 };
const japan = regimeById('jp-0710-2') as Regime;
const europe = regimeById('eu-2002-44') as Regime;

describe('time left', () => {
  it.each([
    [5, 2 * HOUR, 8 * HOUR],
    [10, 30 * MINUTE, 2 * HOUR],
    // 20 min 50 s and 1 h 23 min 20 s, published in whole minutes.
    [12, 20 * MINUTE, HOUR + 23 * MINUTE],
  ])('at %s m/s² comes to the EAV in %s ms and to the ELV in %s ms', (magnitude, action, limit) => {
    // Derived from A(8) (ISO 5349-1:2001, clause 5) and 2.5 and 5 m/s² A(8) (Directive 2002/44/EC, Article 3).
    const wholeMinutes = (ms: number) => ms - (ms % MINUTE);
    expect(wholeMinutes(timeToPointsMs(magnitude * 10, 100, 0))).toBe(action);
    expect(wholeMinutes(timeToPointsMs(magnitude * 10, 400, 0))).toBe(limit);
  });

  it.each([1, 4, 5, 8, 10, 12, 20, 50])('to the limit is 200 / a² hours at %s m/s²', (magnitude) => {
    // Japan, Ministry of Health, Labour and Welfare, notice 0710-2 of 10 July 2009.
    expect(timeToLimitMs(magnitude * 10, europe, UNUSED)).toBe(Math.floor((200 * HOUR) / magnitude ** 2));
  });

  it.each([
    [10, 2 * HOUR, 2 * HOUR],
    [8, 3.125 * HOUR, 2 * HOUR],
    [20, 30 * MINUTE, 30 * MINUTE],
  ])('at %s m/s² is %s ms uncapped and %s ms under the cap of two hours', (magnitude, uncapped, capped) => {
    // Same notice; the cap from secondary sources.
    expect(timeToLimitMs(magnitude * 10, europe, UNUSED)).toBe(uncapped);
    expect(timeToLimitMs(magnitude * 10, japan, UNUSED)).toBe(capped);
  });

  it('takes off what the day has used, by dose and by the cap on the time', () => {
    const used = { dose: doseOf(30, 90 * MINUTE), triggerMs: 90 * MINUTE };
    expect(timeToPointsMs(50, 100, 50 * U_PER_POINT)).toBe(HOUR);
    expect(timeToLimitMs(50, japan, used)).toBe(30 * MINUTE);
    expect(timeToLimitMs(50, europe, used)).toBe((400 - 27) * (HOUR / 50));
    expect(timeUnderCapMs({ ms: 2 * HOUR, clause: '' }, 3 * HOUR)).toBe(0);
  });

  it('is nothing once the level is there or past', () => {
    expect(timeToPointsMs(50, 100, 100 * U_PER_POINT)).toBe(0);
    expect(timeToPointsMs(50, 100, 300 * U_PER_POINT)).toBe(0);
  });

  it('stays within the level for the whole time and leaves it with one ms more', () => {
    const tenths = fc.integer({ min: 1, max: 500 });
    const used = fc.integer({ min: 0, max: 400 * U_PER_POINT });
    fc.assert(
      fc.property(tenths, used, (magnitude, dose) => {
        const left = timeToPointsMs(magnitude, 400, dose);
        expect(dose + doseOf(magnitude, left)).toBeLessThanOrEqual(doseOfPoints(400));
        expect(dose + doseOf(magnitude, left + 1)).toBeGreaterThan(doseOfPoints(400));
      }),
    );
  });

  it('refuses what is no magnitude, level, dose or time', () => {
    expect(() => timeToPointsMs(0, 100, 0)).toThrow(RangeError);
    expect(() => timeToPointsMs(50.5, 100, 0)).toThrow(RangeError);
    expect(() => timeToPointsMs(50, 0.5, 0)).toThrow(RangeError);
    expect(() => timeToPointsMs(50, 100, -1)).toThrow(RangeError);
    expect(() => timeUnderCapMs({ ms: 1, clause: '' }, Number.NaN)).toThrow(RangeError);
    expect(() => timeToLimitMs(50, { ...europe, levels: [] }, UNUSED)).toThrow(/no limit value/);
  });
});
