import { describe, expect, it } from 'vitest';
import { clockText } from '../../src/trace/clock.js';

const SEVEN = 7 * 3_600_000;

describe('clockText', () => {
  it('gives the time of day, with thousandths only where there are some', () => {
    expect(clockText(SEVEN, 0)).toBe('07:00:00');
    expect(clockText(SEVEN, 40 * 60_000 + 1_005)).toBe('07:40:01.005');
  });

  it('counts the days past midnight', () => {
    expect(clockText(22 * 3_600_000, 2 * 3_600_000 - 1)).toBe('23:59:59.999');
    expect(clockText(22 * 3_600_000, 2 * 3_600_000)).toBe('day 2 00:00:00');
    expect(clockText(0, 48 * 3_600_000)).toBe('day 3 00:00:00');
  });

  it('refuses what is no time', () => {
    expect(() => clockText(0, -1)).toThrow(RangeError);
    expect(() => clockText(0, 0.5)).toThrow(RangeError);
  });
});
