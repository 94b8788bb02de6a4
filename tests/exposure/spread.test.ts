import { describe, expect, it } from 'vitest';
import { firstOrderSpread } from '../../src/exposure/spread.js';

const HOUR = 3_600_000;
const sure = { magnitude: 5, triggerMs: HOUR, magnitudeSpread: 0, timeSpread: 0 };

describe('spread carried through', () => {
  it('makes ± 20 % and ± 10 % into ± 20.6 % of A(8) and ± 41 % of points', () => {
    // JCGM 100 (GUM), first order, derived: a ± 20 %, T ± 10 %.
    const spread = firstOrderSpread([{ ...sure, magnitudeSpread: 0.2, timeSpread: 0.1 }]);
    expect((spread.exposure * 100).toFixed(1)).toBe('20.6');
    expect((spread.points * 100).toFixed(0)).toBe('41');
  });

  it('narrows where independent operations share the day, and weighs each by its points', () => {
    const one = { ...sure, magnitudeSpread: 0.2 };
    // Two equal shares: 1/√2 of one. Derived from the same law.
    expect(firstOrderSpread([one, one]).exposure).toBeCloseTo(0.2 / Math.SQRT2, 12);
    // 50 of 250 points carry all the spread.
    expect(firstOrderSpread([one, { ...sure, magnitude: 10 }]).points).toBeCloseTo(0.4 * (50 / 250), 12);
  });

  it('refuses negative spreads, no numbers and a day without exposure', () => {
    expect(() => firstOrderSpread([{ ...sure, magnitudeSpread: -0.1 }])).toThrow(/spread of a magnitude/);
    expect(() => firstOrderSpread([{ ...sure, timeSpread: Number.NaN }])).toThrow(/spread of a time/);
    expect(() => firstOrderSpread([])).toThrow(/some exposure/);
  });
});
