import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatDuration, parseDuration } from '../../../src/scenario/fields/duration.js';

describe('lengths of time', () => {
  it.each([
    ['12s', 12_000],
    ['5m', 300_000],
    ['1h30m', 5_400_000],
    ['250ms', 250],
    ['90m', 5_400_000],
    ['1h1m1s1ms', 3_661_001],
    ['0ms', 0],
  ])('%s is %i ms', (text, ms) => {
    expect(parseDuration(text)).toBe(ms);
  });

  it.each(['', '5', '5 m', '1.5s', 'm', '1m1h', '5m5m', '-5m', '1e3s', '5M', '0x5s', '9999999999ms'])(
    '%j is none',
    (text) => {
      expect(parseDuration(text)).toBeNull();
    },
  );

  it('are written so that they read back', () => {
    fc.assert(fc.property(fc.nat(7 * 86_400_000), (ms) => parseDuration(formatDuration(ms)) === ms));
  });
});
