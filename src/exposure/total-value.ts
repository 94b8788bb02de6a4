// The vibration total value: one magnitude from the three axes measured at the handle.
import { nonNegative } from './non-negative.js';

/**
 * a_hv = sqrt(a_hwx² + a_hwy² + a_hwz²), all frequency-weighted r.m.s. in m/s², at least 0.
 * ISO 5349-1:2001, 4.5; Directive 2002/44/EC, Annex A.1. Throws RangeError where an axis is negative or no number.
 */
export function totalValue(x: number, y: number, z: number): number {
  nonNegative('The x axis in m/s²', x);
  nonNegative('The y axis in m/s²', y);
  nonNegative('The z axis in m/s²', z);
  return Math.sqrt(x * x + y * y + z * z);
}
