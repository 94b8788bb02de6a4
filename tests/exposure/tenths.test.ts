import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { energyAverage } from '../../src/exposure/energy-average.js';
import { tenthsRoundedUp } from '../../src/exposure/tenths.js';

// Setting a counter's magnitude: round up to the next 0.1 m/s², never down. Common practice.
describe('rounding a magnitude up', () => {
  it('goes to the next tenth', () => {
    expect(tenthsRoundedUp(4.1000001)).toBe(42);
    expect(tenthsRoundedUp(4.01)).toBe(41);
    expect(tenthsRoundedUp(5.408)).toBe(55);
    expect(tenthsRoundedUp(0)).toBe(0);
  });

  it('leaves every tenth from 0.0 to 100.0 as it is, however it is written', () => {
    for (let tenths = 0; tenths <= 1000; tenths++) {
      expect(tenthsRoundedUp(tenths / 10)).toBe(tenths);
      expect(tenthsRoundedUp(Number((tenths / 10).toFixed(1)))).toBe(tenths);
      expect(tenthsRoundedUp(tenths * 0.1)).toBe(tenths);
    }
  });

  it('is not lifted by the last bits of a computed average', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 500 }),
        fc.array(fc.integer({ min: 1, max: 60_000 }), { minLength: 1 }),
        (tenths, times) => {
          const samples = times.map((durationMs) => ({ magnitude: tenths / 10, durationMs }));
          expect(tenthsRoundedUp(energyAverage(samples))).toBe(tenths);
        },
      ),
    );
  });

  it('never goes down and never up by a whole tenth', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 50_000_000 }), (millionths) => {
        const rounded = tenthsRoundedUp(millionths / 1_000_000) * 100_000;
        expect(rounded).toBeGreaterThanOrEqual(millionths);
        expect(rounded).toBeLessThan(millionths + 100_000);
      }),
    );
  });

  it.each([-0.1, Number.NaN, Number.POSITIVE_INFINITY])('refuses %s', (wrong) => {
    expect(() => tenthsRoundedUp(wrong)).toThrow(RangeError);
  });
});
