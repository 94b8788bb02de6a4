// Years of exposure after which a tenth of a group is expected to have finger blanching. Never about one person.
import { nonNegative } from './non-negative.js';

/** An estimate is given only inside its validity; outside, the result says on which side. */
export type YearsToTenPercent =
  | { readonly validity: 'within'; readonly years: number }
  | { readonly validity: 'under 1 year' }
  | { readonly validity: 'over 10 years' };

/**
 * Group mean years to 10 % prevalence, Dy = 31.8 · A(8)^-1.06, for a daily exposure in m/s², at least 0.
 * ISO 5349-1:2001, Annex C, from memory: valid for a group and 1 to 10 years, never for one person.
 * Throws RangeError where the exposure is negative or no number. Not for anything that reaches a trace: the last bit
 * of a power may differ between machines.
 */
export function yearsToTenPercent(dailyExposure: number): YearsToTenPercent {
  nonNegative('A daily exposure in m/s²', dailyExposure);
  const years = 31.8 * dailyExposure ** -1.06;
  if (years < 1) {
    return { validity: 'under 1 year' };
  }
  return years > 10 ? { validity: 'over 10 years' } : { validity: 'within', years };
}
