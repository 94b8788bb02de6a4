import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CAPACITY_NC, CURVE, chargeOf, voltageOf } from '../../../sim/cell/curve.js';

const CHARGE = fc.integer({ min: 0, max: CAPACITY_NC });
const LOAD = fc.integer({ min: 0, max: 100_000 });

describe('the curve of a cell', () => {
  it('holds whole charges, safe to multiply by any voltage on it', () => {
    for (const { permille } of CURVE) expect(Number.isSafeInteger(chargeOf(permille))).toBe(true);
    expect([CURVE[0]!.permille, CURVE.at(-1)!.permille]).toEqual([1000, 0]);
    for (const [index, { permille }] of CURVE.slice(1).entries()) {
      const spanNc = chargeOf(CURVE[index]!.permille) - chargeOf(permille);
      expect(spanNc * 10_000).toBeLessThan(Number.MAX_SAFE_INTEGER);
    }
  });

  it('gives at its points what it says there, without a load and with one', () => {
    for (const { permille, openMv, resistanceOhms } of CURVE) {
      expect(voltageOf(chargeOf(permille), 0)).toBe(openMv);
      expect(voltageOf(chargeOf(permille), 8000)).toBe(openMv - 8 * resistanceOhms);
    }
    // 15 Ω at 25 µA take 0.375 mV: rounded down, so that a load never costs nothing.
    expect(voltageOf(CAPACITY_NC, 25)).toBe(3199);
  });

  it('runs straight between its points, rounded down', () => {
    // Half way from 3050 to 3000 mV, and a third of the way from 2400 to 2560 mV.
    expect(voltageOf(chargeOf(700), 0)).toBe(3025);
    expect(voltageOf(chargeOf(10) + (chargeOf(20) - chargeOf(10)) / 3, 0)).toBe(2453);
  });

  it('gives a whole voltage, never less with more charge, never more with more load', () => {
    fc.assert(
      fc.property(CHARGE, CHARGE, LOAD, LOAD, (one, other, load, more) => {
        const mv = voltageOf(one, load);
        expect(Number.isSafeInteger(mv) && mv >= 0).toBe(true);
        expect(voltageOf(Math.max(one, other), load)).toBeGreaterThanOrEqual(voltageOf(Math.min(one, other), load));
        expect(voltageOf(one, Math.max(load, more))).toBeLessThanOrEqual(voltageOf(one, Math.min(load, more)));
      }),
    );
  });

  it('refuses a charge that no cell holds', () => {
    expect(() => voltageOf(-1, 0)).toThrow('cannot hold -1 nC');
    expect(() => voltageOf(CAPACITY_NC + 1, 0)).toThrow('cannot hold');
  });
});
