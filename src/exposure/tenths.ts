// From a measured magnitude to what a counter can be set to: the next tenth of m/s² up, never down.
import { nonNegative } from './non-negative.js';

/**
 * How far above a tenth a magnitude may lie, as a share of itself, and still be that tenth. It covers the last bits that
 * a square root of sums leaves behind, and lies a thousand million times below what anyone measures.
 */
const LAST_BITS = 1e-12;

/**
 * Magnitude in m/s² (at least 0) rounded up to whole tenths: 4.1 gives 41, 4.1000001 gives 42. Common practice.
 * Throws RangeError where it is negative or no number.
 */
export function tenthsRoundedUp(magnitude: number): number {
  nonNegative('A magnitude in m/s²', magnitude);
  // Multiplying by ten may land on either side of a tenth, so the candidate is compared where it reads exactly.
  const nearest = Math.round(magnitude * 10);
  return (nearest / 10) * (1 + LAST_BITS) >= magnitude ? nearest : nearest + 1;
}
