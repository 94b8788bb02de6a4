import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDose, doseOf, MAX_DOSE, U_PER_POINT, wholePoints } from '../../src/exposure/dose.js';

const tenths = fc.integer({ min: 1, max: 500 });
const dayMs = fc.integer({ min: 0, max: 86_400_000 });

describe('dose', () => {
  it('makes one point 180 000 000 u, since n = 2 · a² · T', () => {
    // 1 m/s² for half an hour: 2 · 1² · 0.5 = 1 point.
    expect(doseOf(10, 1_800_000)).toBe(U_PER_POINT);
  });

  it('holds 5 000 hours at 50 m/s² in 52 bits', () => {
    expect(MAX_DOSE).toBe(4_503_599_627_370_495);
    expect(doseOf(500, 5_000 * 3_600_000)).toBe(4_500_000_000_000_000);
    expect(() => doseOf(500, 5_005 * 3_600_000)).toThrow(/52 bits/);
  });

  it('is exact for every magnitude and time of a day', () => {
    fc.assert(
      fc.property(tenths, dayMs, (a, ms) => {
        expect(BigInt(doseOf(a, ms))).toBe(BigInt(a) * BigInt(a) * BigInt(ms));
      }),
    );
  });

  it('does not change when a burst is split', () => {
    fc.assert(
      fc.property(tenths, dayMs, dayMs, (a, first, second) => {
        expect(addDose(doseOf(a, first), doseOf(a, second))).toBe(doseOf(a, first + second));
      }),
    );
  });

  it('saturates and never wraps (ACC-2)', () => {
    expect(addDose(MAX_DOSE, 1)).toBe(MAX_DOSE);
    expect(addDose(MAX_DOSE - 5, 5)).toBe(MAX_DOSE);
    expect(addDose(MAX_DOSE, MAX_DOSE)).toBe(MAX_DOSE);
  });

  it('truncates to whole points at every dose (ACC-3)', () => {
    expect(wholePoints(100 * U_PER_POINT - 1)).toBe(99);
    expect(wholePoints(100 * U_PER_POINT)).toBe(100);
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 25_000_000 }),
        fc.integer({ min: 0, max: U_PER_POINT - 1 }),
        (points, rest) => {
          expect(wholePoints(points * U_PER_POINT + rest)).toBe(points);
          expect(wholePoints(points * U_PER_POINT - 1)).toBe(points - 1);
        },
      ),
    );
  });

  it.each([0, -1, 4.5, 501, Number.NaN, Number.POSITIVE_INFINITY])('refuses %s tenths of m/s²', (wrong) => {
    expect(() => doseOf(wrong, 1000)).toThrow(RangeError);
  });

  it.each([-1, 0.5, Number.NaN, Number.POSITIVE_INFINITY])('refuses %s ms', (wrong) => {
    expect(() => doseOf(50, wrong)).toThrow(RangeError);
  });

  it.each([-1, 0.5, Number.NaN, MAX_DOSE + 1])('refuses a dose of %s u', (wrong) => {
    expect(() => wholePoints(wrong)).toThrow(RangeError);
    expect(() => addDose(wrong, 0)).toThrow(RangeError);
    expect(() => addDose(0, wrong)).toThrow(RangeError);
  });
});
