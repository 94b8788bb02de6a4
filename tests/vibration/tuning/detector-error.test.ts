import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { detectorError } from '../../../src/vibration/tuning/detector-error.js';

const mark = (startS: number, stopS: number) => ({ startS, stopS });
const span = (from: number, to: number) => ({ from, to });

describe('detectorError', () => {
  it('tells what is false from what is missed, where the sums agree', () => {
    const found = { spans: [span(10, 20), span(50, 60)], shortBursts: 1 };
    expect(detectorError(found, [mark(1, 2), mark(8, 9)], 100)).toEqual({
      trueMs: 2000,
      countedMs: 2000,
      triggerTimeErrorMs: 0,
      falseMs: 1000,
      missedMs: 1000,
      falseBursts: 1,
      missedBursts: 1,
      shortBursts: 1,
      worstStartMs: 0,
      worstStopMs: 0,
    });
  });

  it('tells the farthest start and stop, early or late', () => {
    const found = { spans: [span(10, 21), span(31, 39)], shortBursts: 0 };
    const error = detectorError(found, [mark(1.05, 2.02), mark(3.02, 3.95)], 100);
    expect([error.worstStartMs, error.worstStopMs]).toEqual([80, 80]);
    expect([error.falseMs, error.missedMs]).toEqual([130, 130]);
  });

  it('takes a mark that falls apart by its first start and its last stop, and several marks in one span each', () => {
    const apart = detectorError({ spans: [span(10, 12), span(17, 20)], shortBursts: 0 }, [mark(1, 2)], 100);
    expect(apart).toMatchObject({ missedMs: 500, missedBursts: 0, falseBursts: 0, worstStartMs: 0, worstStopMs: 0 });
    const bridged = detectorError({ spans: [span(10, 30)], shortBursts: 0 }, [mark(1, 2), mark(2.5, 3)], 100);
    expect(bridged).toMatchObject({
      falseMs: 500,
      missedBursts: 0,
      falseBursts: 0,
      worstStartMs: -1500,
      worstStopMs: 1000,
    });
  });

  it('asks for no more than was recorded', () => {
    const found = { spans: [], shortBursts: 0 };
    expect(detectorError(found, [mark(1, 20), mark(30, 40)], 100)).toMatchObject({
      trueMs: 9000,
      missedBursts: 1,
      worstStartMs: null,
    });
  });

  it('adds up like sets do, window by window', () => {
    const edges = fc.uniqueArray(fc.nat(60), { maxLength: 12 }).map((all) => {
      const sorted = all.toSorted((a, b) => a - b);
      return sorted.flatMap((from, at) =>
        at % 2 === 0 && at + 1 < sorted.length ? [span(from, sorted[at + 1]!)] : [],
      );
    });
    fc.assert(
      fc.property(edges, edges, (spans, ran) => {
        const marks = ran.map(({ from, to }) => mark(from / 10, to / 10));
        const error = detectorError({ spans, shortBursts: 0 }, marks, 61);
        const has = (all: typeof spans, window: number) => all.some(({ from, to }) => from <= window && window < to);
        const windows = Array.from({ length: 61 }, (_, window) => [has(spans, window), has(ran, window)]);
        expect(error.falseMs).toBe(100 * windows.filter(([counted, runs]) => counted && !runs).length);
        expect(error.missedMs).toBe(100 * windows.filter(([counted, runs]) => !counted && runs).length);
        expect(error.triggerTimeErrorMs).toBe(error.falseMs - error.missedMs);
      }),
    );
  });
});
