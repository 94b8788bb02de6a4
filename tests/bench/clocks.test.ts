// Clocks run as fast as they are told to, to the ms. A counter at rest tells its tally every 60 s of its own (TAL-1), so that its
// clock can be read from the trace; the sums below are made in whole µs, by hand.
import { describe, expect, it } from 'vitest';
import type { DayEvent } from '../../src/scenario/day.js';
import { MINUTE_MS, ofKind, pair, smallDay, traceOf } from './small-day.js';

const HOUR_MS = 60 * MINUTE_MS;
const DRIFT_STEP_MS = 5 * MINUTE_MS;
const AT_MS = 10 * MINUTE_MS;

function clock(atMs: number, ppm: number, driftPpm: number, forMs: number | null, device = 'saw'): DayEvent {
  return { atMs, do: 'clock', device, ppm, driftPpm, forMs };
}

/** When the saw's counter has told tallies. */
function toldMs(untilMs: number, ...faults: readonly DayEvent[]): readonly number[] {
  const day = smallDay([pair(0, 'saw', 'Edda'), ...faults], { untilMs });
  return ofKind(traceOf(day, { keys: false }), 'air.tally', 'saw').map(({ at }) => at);
}

/** What a clock shows, in ps since the start, that gains so many ppm from one time on, and so many from the next. */
function localPs(atMs: number, rates: readonly (readonly [fromMs: number, ppm: number])[]): number {
  let local = 0;
  for (const [index, [fromMs, ppm]] of rates.entries()) {
    const endMs = Math.min(atMs, rates[index + 1]?.[0] ?? Infinity);
    if (endMs > fromMs) local += (endMs - fromMs) * (1_000_000 + ppm);
  }
  return local;
}

/** The first ms at which each tally is due on such a clock, the first one having been told at startMs. */
function expectedMs(startMs: number, untilMs: number, rates: Parameters<typeof localPs>[1]): readonly number[] {
  const times = [startMs];
  const start = localPs(startMs, rates);
  for (let atMs = startMs; ; times.push(atMs)) {
    const duePs = start + times.length * MINUTE_MS * 1_000_000;
    // No clock is off by more than 2 %: the search begins with the last ms at which it cannot be due yet.
    atMs += Math.floor(MINUTE_MS / 1.02) - 1;
    while (localPs(atMs, rates) < duePs) atMs++;
    if (atMs > untilMs) return times;
  }
}

describe('a clock', () => {
  it.each([0, 1, 400, -400, 20_000, -20_000])('that is off by %i ppm is so exactly, to the end', (ppm) => {
    const told = toldMs(HOUR_MS, clock(AT_MS, ppm, 0, null));
    const rates = [
      [0, 0],
      [AT_MS, ppm],
    ] as const;
    expect(told).toEqual(expectedMs(told[0]!, HOUR_MS, rates));
  });

  it('is right again afterwards', () => {
    const forMs = 20 * MINUTE_MS;
    const told = toldMs(HOUR_MS, clock(AT_MS, 20_000, 0, forMs));
    const rates = [
      [0, 0],
      [AT_MS, 20_000],
      [AT_MS + forMs, 0],
    ] as const;
    expect(told).toEqual(expectedMs(told[0]!, HOUR_MS, rates));
  });

  it.each([1000, -1000])('that drifts by %i ppm an hour does so in steps of five minutes', (driftPpm) => {
    const untilMs = 2 * HOUR_MS;
    const told = toldMs(untilMs, clock(AT_MS, -500, driftPpm, null));
    const rates: (readonly [number, number])[] = [[0, 0]];
    for (let step = 0; AT_MS + step * DRIFT_STEP_MS <= untilMs; step++) {
      rates.push([AT_MS + step * DRIFT_STEP_MS, -500 + Math.round((driftPpm * step) / 12)]);
    }
    expect(told).toEqual(expectedMs(told[0]!, untilMs, rates));
    expect(rates.at(-1)![1]).toBe(-500 + Math.round((driftPpm * 22) / 12));
  });

  it('is not put right, nor made to drift on, by an earlier fault', () => {
    const told = toldMs(HOUR_MS, clock(AT_MS, 5000, 1000, 20 * MINUTE_MS), clock(AT_MS + MINUTE_MS, -7000, 0, null));
    const rates = [
      [0, 0],
      [AT_MS, 5000],
      [AT_MS + MINUTE_MS, -7000],
    ] as const;
    expect(told).toEqual(expectedMs(told[0]!, HOUR_MS, rates));
  });

  it('of a wearable is its own: a counter heard of no more is stale after 150 s of it (TAL-6)', () => {
    const day = smallDay([
      pair(0, 'saw', 'Edda'),
      clock(MINUTE_MS, -20_000, 0, null, 'Edda'),
      { atMs: 3 * MINUTE_MS, do: 'leave', who: ['Edda'], forMs: null },
    ]);
    const events = traceOf(day);
    const heard = ofKind(events, 'air.heard', 'Edda').at(-1)!;
    const [marked] = ofKind(events, 'shown.mark', 'Edda').filter(({ on }) => on);
    // 150 s of a clock that is 2 % slow are 153.061 s.
    expect(marked!.at - heard.at).toBeGreaterThanOrEqual(153_061);
    expect(marked!.at - heard.at).toBeLessThanOrEqual(153_063);
  });

  it('is told of in the trace, when it goes wrong and when it is right', () => {
    const events = traceOf(smallDay([clock(1000, 400, -20, 5000, 'Edda'), clock(9000, -3, 0, null)]));
    expect(ofKind(events, 'fault.clock').map(({ at, by, ppm, driftPpm }) => [at, by, ppm, driftPpm])).toEqual([
      [1000, 'Edda', 400, -20],
      [9000, 'saw', -3, 0],
    ]);
    expect(ofKind(events, 'fault.lifted').map(({ at, by, what }) => [at, by, what])).toEqual([[6000, 'Edda', 'clock']]);
  });
});
