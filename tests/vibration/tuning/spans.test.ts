import { describe, expect, it } from 'vitest';
import { DETECTOR_DEFAULTS } from '../../../src/counter/detector.js';
import { spansOf } from '../../../src/vibration/tuning/spans.js';

describe('spansOf', () => {
  const found = (...levels: number[]) => spansOf(DETECTOR_DEFAULTS, levels);
  const rest = [0, 0, 0, 0, 0];

  it('dates a start to its first window and a stop behind the last window above the off level', () => {
    expect(found(0, 1000, 1000, 700, ...rest, 2000, 2000, ...rest).spans).toEqual([
      { from: 1, to: 4 },
      { from: 9, to: 11 },
    ]);
  });

  it('bridges a gap that confirms no stop, and counts bursts that confirm no start', () => {
    expect(found(0, 1000, 0, 1000, 1000, 0, 0, 0, 0, 600, ...rest)).toEqual({
      spans: [{ from: 3, to: 10 }],
      shortBursts: 1,
    });
  });

  it('ends what goes on at the end with the last window counted', () => {
    expect(found(1000, 1000, 1000, 0, 0)).toEqual({ spans: [{ from: 0, to: 3 }], shortBursts: 0 });
    expect(found(0, 0)).toEqual({ spans: [], shortBursts: 0 });
  });
});
