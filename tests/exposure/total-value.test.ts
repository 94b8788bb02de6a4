import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { totalValue } from '../../src/exposure/total-value.js';

describe('vibration total value', () => {
  it('is the root of the sum of the squares of the three axes', () => {
    // ISO 5349-1:2001, 4.5; Directive 2002/44/EC, Annex A.1: a_hv = sqrt(a_hwx² + a_hwy² + a_hwz²).
    expect(totalValue(2, 3, 6)).toBe(7);
    expect(totalValue(1, 4, 8)).toBe(9);
    expect(totalValue(0, 0, 4.1)).toBe(4.1);
    expect(totalValue(0, 0, 0)).toBe(0);
  });

  it('does not depend on which axis is which, and is no less than any of them', () => {
    const axis = fc.integer({ min: 0, max: 5000 });
    fc.assert(
      fc.property(axis, axis, axis, (x, y, z) => {
        const total = totalValue(x, y, z);
        expect(totalValue(z, x, y)).toBe(total);
        expect(total).toBeGreaterThanOrEqual(Math.max(x, y, z));
        expect(total).toBeLessThanOrEqual(x + y + z);
      }),
    );
  });

  it('says which axis is wrong', () => {
    expect(() => totalValue(-1, 0, 0)).toThrow(/x axis/);
    expect(() => totalValue(0, Number.NaN, 0)).toThrow(/y axis/);
    expect(() => totalValue(0, 0, Number.POSITIVE_INFINITY)).toThrow(/z axis/);
  });
});
