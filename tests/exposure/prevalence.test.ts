import { describe, expect, it } from 'vitest';
import { yearsToTenPercent } from '../../src/exposure/prevalence.js';

/** The daily exposure whose estimate is so many years, found by halving: the table is the inverse of the formula. */
function exposureFor(years: number): number {
  let low = 1;
  let high = 100;
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    const estimate = yearsToTenPercent(middle);
    const longer = estimate.validity === 'over 10 years' || (estimate.validity === 'within' && estimate.years > years);
    if (longer) low = middle;
    else high = middle;
  }
  return low;
}

describe('years to 10 % prevalence', () => {
  it.each([
    [1, '26', 0],
    [2, '14', 0],
    [4, '7', 0],
    [8, '3.7', 1],
  ])('is %s for the exposure of the table, %s m/s²', (years, printed, places) => {
    // ISO 5349-1:2001, Annex C, Dy = 31.8 · A(8)^-1.06 and Table C.1 (its inverse, rounded): from memory.
    expect(exposureFor(years).toFixed(places)).toBe(printed);
  });

  it('gives the formula inside its validity', () => {
    // Same source: 4 years at 7.07 m/s².
    const estimate = yearsToTenPercent(7.07);
    expect(estimate.validity === 'within' && estimate.years.toFixed(2)).toBe('4.00');
  });

  it('gives no number outside 1 to 10 years, and says on which side', () => {
    // Same source: valid as a group estimate for 1 to 10 years.
    expect(yearsToTenPercent(27)).toEqual({ validity: 'under 1 year' });
    expect(yearsToTenPercent(2.5)).toEqual({ validity: 'over 10 years' });
    expect(yearsToTenPercent(0)).toEqual({ validity: 'over 10 years' });
  });

  it.each([-1, Number.NaN, Number.POSITIVE_INFINITY])('refuses %s', (wrong) => {
    expect(() => yearsToTenPercent(wrong)).toThrow(RangeError);
  });
});
