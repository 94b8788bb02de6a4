import { describe, expect, it } from 'vitest';
import { declaredUncertainty } from '../../src/exposure/declared.js';

describe('declared value and uncertainty', () => {
  it.each([
    [4, 2],
    [5, 2.5],
    [10, 4],
  ])('gives K for a declared %s m/s²: %s', (declared, uncertainty) => {
    // EN 12096, single machine, K = 0.5 · a for 2.5 < a ≤ 5, 0.4 · a above: from memory.
    expect(declaredUncertainty(declared)).toBe(uncertainty);
  });

  it('gives none up to 2.5 m/s²', () => {
    expect(declaredUncertainty(2.5)).toBeUndefined();
    expect(declaredUncertainty(2.6)).toBe(1.3);
  });

  it.each([-1, Number.NaN, Number.POSITIVE_INFINITY])('refuses %s', (wrong) => {
    expect(() => declaredUncertainty(wrong)).toThrow(RangeError);
  });
});
