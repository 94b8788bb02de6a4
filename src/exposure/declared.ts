// The uncertainty K that goes with a declared emission value a, where a maker declares one machine by itself.
import { nonNegative } from './non-negative.js';

/**
 * K in m/s² for a declared value a in m/s² of a single machine: 0.5 · a for 2.5 < a ≤ 5, 0.4 · a above; undefined up
 * to 2.5 m/s², for which the rule gives none. EN 12096, from memory. Throws RangeError where a is negative or no number.
 */
export function declaredUncertainty(declared: number): number | undefined {
  nonNegative('A declared value in m/s²', declared);
  if (declared <= 2.5) {
    return undefined;
  }
  return declared <= 5 ? 0.5 * declared : 0.4 * declared;
}
