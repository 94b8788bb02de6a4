import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compares, comparisonText, quotientText } from '../../../src/judge/expectations/decimal.js';
import type { Comparison } from '../../../src/scenario/expectation.js';

const POINT = 180_000_000;
const hundred = { digits: 100, places: 0 };

describe('compares', () => {
  it('tells one unit below and above 100 points from 100 (ACC-3)', () => {
    const judged = (is: 'exactly' | 'at least' | 'at most' | 'above' | 'below') =>
      [100 * POINT - 1, 100 * POINT, 100 * POINT + 1].map((dose) => compares({ is, value: hundred }, dose, POINT));
    expect(judged('exactly')).toEqual([false, true, false]);
    expect(judged('at least')).toEqual([false, true, true]);
    expect(judged('at most')).toEqual([true, true, false]);
    expect(judged('above')).toEqual([false, false, true]);
    expect(judged('below')).toEqual([true, false, false]);
  });

  it('includes both ends of between', () => {
    const between: Comparison = { is: 'between', low: { digits: 191, places: 1 }, high: { digits: 193, places: 1 } };
    // 19.1 points are 3 438 000 000 u, 19.3 points 3 474 000 000 u.
    const doses = [3_437_999_999, 3_438_000_000, 3_456_000_000, 3_474_000_000, 3_474_000_001];
    expect(doses.map((dose) => compares(between, dose, POINT))).toEqual([false, true, true, true, false]);
  });

  it('is exact at the end of 52 bits, where a number times ten is not', () => {
    const most = 2 ** 52 - 1;
    expect(compares({ is: 'exactly', value: { digits: most, places: 0 } }, most, 1)).toBe(true);
    expect(compares({ is: 'exactly', value: { digits: most, places: 3 } }, most, 1000)).toBe(true);
    expect(compares({ is: 'exactly', value: { digits: most - 1, places: 3 } }, most, 1000)).toBe(false);
  });

  it('does not care how a decimal is written', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e9, max: 1e9 }), fc.nat(5), (digits, places) => {
        expect(compares({ is: 'exactly', value: { digits: digits * 10 ** places, places } }, digits, 1)).toBe(true);
      }),
    );
  });
});

describe('text', () => {
  it('writes comparisons with their unit', () => {
    expect(comparisonText({ is: 'at least', value: { digits: 1925, places: 2 } }, ' points', 0)).toBe(
      'at least 19.25 points',
    );
    expect(comparisonText({ is: 'exactly', value: { digits: 2500, places: 0 } }, ' s', 3)).toBe('exactly 2.5 s');
    const low = { digits: -5, places: 1 };
    expect(comparisonText({ is: 'between', low, high: hundred }, '', 0)).toBe('between -0.5 and 100');
  });

  it('cuts quotients and says so', () => {
    expect(quotientText(100 * POINT - 1, POINT)).toBe('99.9999…');
    expect(quotientText(100 * POINT, POINT)).toBe('100');
    expect(quotientText(0, POINT)).toBe('0');
    expect(quotientText(725_300, 1000)).toBe('725.3');
    expect(quotientText(2 ** 52 - 1, 1)).toBe('4503599627370495');
  });
});
