import { describe, expect, it } from 'vitest';
import { energyAverage } from '../../src/exposure/energy-average.js';

describe('energy average', () => {
  it('weighs samples by their duration', () => {
    // ISO 5349-2 form, derived: 5.2 (30 s), 6.1 (20 s), 4.8 (15 s) m/s² gives 5.408.
    const samples = [
      { magnitude: 5.2, durationMs: 30_000 },
      { magnitude: 6.1, durationMs: 20_000 },
      { magnitude: 4.8, durationMs: 15_000 },
    ];
    expect(energyAverage(samples).toFixed(3)).toBe('5.408');
  });

  it('leaves out a sample of no duration and refuses where all are so', () => {
    expect(
      energyAverage([
        { magnitude: 3, durationMs: 10 },
        { magnitude: 50, durationMs: 0 },
      ]),
    ).toBe(3);
    expect(() => energyAverage([])).toThrow(/at least one sample/);
    expect(() => energyAverage([{ magnitude: 3, durationMs: 0 }])).toThrow(/at least one sample/);
  });

  it.each([-1, Number.NaN, Number.POSITIVE_INFINITY])('refuses %s as magnitude and as duration', (wrong) => {
    expect(() => energyAverage([{ magnitude: wrong, durationMs: 1 }])).toThrow(/magnitude/);
    expect(() => energyAverage([{ magnitude: 1, durationMs: wrong }])).toThrow(/duration/);
  });
});
