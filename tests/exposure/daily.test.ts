import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dailyExposure, type Operation, partialExposure, REFERENCE_MS } from '../../src/exposure/daily.js';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const operation: fc.Arbitrary<Operation> = fc.record({
  magnitude: fc.integer({ min: 1, max: 500 }).map((tenths) => tenths / 10),
  triggerMs: fc.integer({ min: 0, max: 8 * HOUR }),
});

describe('daily exposure', () => {
  it('spreads one operation over eight hours', () => {
    // ISO 5349-1:2001, clause 5: A(8) = a_hv · sqrt(T / T0), T0 = 8 h = 28 800 s.
    expect(REFERENCE_MS).toBe(28_800 * 1000);
    expect(partialExposure({ magnitude: 4.1, triggerMs: 8 * HOUR })).toBeCloseTo(4.1, 12);
    expect(partialExposure({ magnitude: 10, triggerMs: 2 * HOUR })).toBe(5);
    expect(partialExposure({ magnitude: 3, triggerMs: 0 })).toBe(0);
  });

  it('adds several operations by energy', () => {
    // ISO 5349-1:2001, clause 5: A(8) = sqrt( (1 / T0) · Σ a_hvi² · Ti ). Four hours at 3 and at 4 m/s²: sqrt(25 / 2).
    const day = [
      { magnitude: 3, triggerMs: 4 * HOUR },
      { magnitude: 4, triggerMs: 4 * HOUR },
    ];
    expect(dailyExposure(day)).toBeCloseTo(Math.sqrt(12.5), 12);
    expect(dailyExposure([])).toBe(0);
  });

  it('gives the worked example of a day', () => {
    // EU Guide to good practice on hand-arm vibration (2006), worked example: from memory.
    const day = [
      { magnitude: 4, triggerMs: 150 * MINUTE },
      { magnitude: 3, triggerMs: 60 * MINUTE },
      { magnitude: 20, triggerMs: 15 * MINUTE },
    ];
    expect(day.map((one) => partialExposure(one).toFixed(1))).toEqual(['2.2', '1.1', '3.5']);
    expect(dailyExposure(day).toFixed(1)).toBe('4.3');
  });

  it('is the root of the sum of the squares of its partials, in any order', () => {
    fc.assert(
      fc.property(fc.array(operation, { maxLength: 8 }), (day) => {
        const squares = day.reduce((sum, one) => sum + partialExposure(one) ** 2, 0);
        expect(dailyExposure(day)).toBeCloseTo(Math.sqrt(squares), 9);
        expect(dailyExposure([...day].reverse())).toBeCloseTo(dailyExposure(day), 9);
      }),
    );
  });

  it('rises with every operation, magnitude and time', () => {
    fc.assert(
      fc.property(fc.array(operation, { maxLength: 8 }), operation, (day, more) => {
        const before = dailyExposure(day);
        const with_ = (extra: Operation) => dailyExposure([...day, extra]);
        expect(with_(more)).toBeGreaterThanOrEqual(before);
        expect(with_({ ...more, magnitude: more.magnitude + 0.1 })).toBeGreaterThanOrEqual(with_(more));
        expect(with_({ ...more, triggerMs: more.triggerMs + MINUTE })).toBeGreaterThan(with_(more));
      }),
    );
  });

  it.each([-1, Number.NaN, Number.POSITIVE_INFINITY])('refuses %s as magnitude and as time', (wrong) => {
    expect(() => partialExposure({ magnitude: wrong, triggerMs: 1 })).toThrow(/magnitude/);
    expect(() => dailyExposure([{ magnitude: 1, triggerMs: wrong }])).toThrow(/trigger time/);
  });
});
