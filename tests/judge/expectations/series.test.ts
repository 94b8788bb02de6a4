import { describe, expect, it } from 'vitest';
import { Series } from '../../../src/judge/expectations/series.js';

function steps(): Series<number> {
  const series = new Series(0);
  series.push(10, 1, 5);
  series.push(20, 2, 6);
  series.push(20, 3, 7);
  series.push(30, 4, 7);
  return series;
}

describe('Series', () => {
  it('is at each time what all events up to that time made of it', () => {
    const values = [0, 9, 10, 19, 20, 30, 1e9].map((at) => steps().stepAt(at).value);
    expect(values).toEqual([0, 0, 5, 5, 7, 7, 7]);
    expect(steps().stepAt(99)).toEqual({ atMs: 20, n: 3, value: 7 });
  });

  it('gives the value at the start of a span and each later one before its end', () => {
    expect(steps().between(15, 20)).toEqual([{ atMs: 10, n: 1, value: 5 }]);
    expect(
      steps()
        .between(15, 21)
        .map((step) => step.value),
    ).toEqual([5, 7]);
    expect(
      steps()
        .between(0, 100)
        .map((step) => step.value),
    ).toEqual([0, 5, 7]);
  });

  it('lets what is undone within the same millisecond pass', () => {
    const series = steps();
    series.push(40, 5, 9);
    series.push(40, 6, 7);
    expect(series.between(0, 100).some((step) => step.value === 9)).toBe(false);
  });

  it('refuses a step back in time', () => {
    expect(() => steps().push(5, 9, 1)).toThrow('after one at');
  });
});
