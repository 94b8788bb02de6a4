import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dailyExposure } from '../../src/exposure/daily.js';
import { doseOf, MAX_DOSE, U_PER_POINT } from '../../src/exposure/dose.js';
import { exposureOfPoints, pointsOf, pointsOfDose, pointsPerHour, pointTenths } from '../../src/exposure/points.js';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const tenths = fc.integer({ min: 1, max: 500 });
const timeMs = fc.integer({ min: 0, max: 8 * HOUR });
const burst = fc.record({ tenths, timeMs });

describe('exposure points', () => {
  it('are 100 at the action value and 400 at the limit value', () => {
    // 2.5 and 5 m/s² A(8): Directive 2002/44/EC, Article 3.
    // 100 and 400 points: UK Health and Safety Executive, hand-arm vibration ready reckoner.
    expect(pointsOf({ magnitude: 2.5, triggerMs: 8 * HOUR })).toBe(100);
    expect(pointsOf({ magnitude: 5, triggerMs: 8 * HOUR })).toBe(400);
    expect(exposureOfPoints(100)).toBe(2.5);
    expect(exposureOfPoints(400)).toBe(5);
  });

  it('give 150 for 5 m/s² over 3 h', () => {
    // UK Health and Safety Executive, ready reckoner, worked illustration.
    expect(pointsOf({ magnitude: 5, triggerMs: 3 * HOUR })).toBe(150);
    expect(doseOf(50, 3 * HOUR)).toBe(150 * U_PER_POINT);
  });

  it('give 80 + 18 + 200 = 298 in the worked example of a day', () => {
    // EU Guide to good practice on hand-arm vibration (2006), worked example: from memory.
    const day = [
      { magnitude: 4, triggerMs: 150 * MINUTE },
      { magnitude: 3, triggerMs: 60 * MINUTE },
      { magnitude: 20, triggerMs: 15 * MINUTE },
    ];
    const points = day.map(pointsOf);
    expect(points).toEqual([80, 18, 200]);
    expect(exposureOfPoints(298).toFixed(1)).toBe('4.3');
    expect(exposureOfPoints(298)).toBeCloseTo(dailyExposure(day), 12);
  });

  it.each([
    [2.5, 15, 3],
    [4, 15, 8],
    [5, 30, 25],
    [6, 60, 72],
    [15, 15, 113],
  ])('round as published for %s m/s² over %s min: %s', (magnitude, minutes, points) => {
    // UK Health and Safety Executive, ready reckoner cells, rounded to whole points there: from memory.
    expect(Math.round(pointsOf({ magnitude, triggerMs: minutes * MINUTE }))).toBe(points);
  });

  it('per hour are twice the square of the magnitude', () => {
    // n = 2 · a_hv² · T with T in hours follows from A(8) and the points at the EAV.
    expect(pointsPerHour(5)).toBe(50);
    expect(pointsPerHour(12)).toBe(288);
    expect(pointsPerHour(0)).toBe(0);
  });

  it('equal n = 2 · a² · T and the exact dose, for any magnitude and time', () => {
    fc.assert(
      fc.property(burst, ({ tenths, timeMs }) => {
        const points = pointsOf({ magnitude: tenths / 10, triggerMs: timeMs });
        expect(points).toBeCloseTo(2 * (tenths / 10) ** 2 * (timeMs / HOUR), 7);
        expect(pointsOfDose(doseOf(tenths, timeMs))).toBeCloseTo(points, 7);
      }),
    );
  });

  it('add up over a day, and their sum agrees with A(8)', () => {
    fc.assert(
      fc.property(fc.array(burst, { maxLength: 6 }), (bursts) => {
        const day = bursts.map((one) => ({ magnitude: one.tenths / 10, triggerMs: one.timeMs }));
        const sum = day.reduce((points, one) => points + pointsOf(one), 0);
        const dose = bursts.reduce((total, one) => total + doseOf(one.tenths, one.timeMs), 0);
        expect(pointsOfDose(dose)).toBeCloseTo(sum, 6);
        expect(exposureOfPoints(sum)).toBeCloseTo(dailyExposure(day), 9);
      }),
    );
  });

  it('are shown in tenths that never run ahead of the dose', () => {
    expect(pointTenths(100 * U_PER_POINT - 1)).toBe(999);
    expect(pointTenths(100 * U_PER_POINT)).toBe(1000);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: MAX_DOSE }), (dose) => {
        const shown = BigInt(pointTenths(dose));
        const unit = BigInt(U_PER_POINT / 10);
        expect(shown * unit <= BigInt(dose) && BigInt(dose) < (shown + 1n) * unit).toBe(true);
      }),
    );
  });

  it.each([-1, Number.NaN, Number.POSITIVE_INFINITY])('refuse %s', (wrong) => {
    expect(() => pointsPerHour(wrong)).toThrow(RangeError);
    expect(() => pointsOf({ magnitude: 1, triggerMs: wrong })).toThrow(RangeError);
    expect(() => exposureOfPoints(wrong)).toThrow(RangeError);
    expect(() => pointsOfDose(wrong)).toThrow(RangeError);
    expect(() => pointTenths(wrong)).toThrow(RangeError);
  });
});
