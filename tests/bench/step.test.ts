// However a day is run, in one go, moment by moment or thing by thing, it is the same day.
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { Bench } from '../../src/bench/bench.js';
import { faultyDay } from '../../src/prove/days/day.js';
import type { Day } from '../../src/scenario/day.js';
import type { TraceEvent } from '../../src/trace/kinds.js';
import { arbitraryDay } from '../days/arbitrary-day.js';
import { PATIENCE_MS, PATIENT } from '../days/patience.js';
import { expectSame } from './same-trace.js';

vi.setConfig({ testTimeout: PATIENCE_MS });

const UNTIL_MS = 1_800_000;
const DAY = fc.oneof(
  arbitraryDay({ rough: true, untilMs: UNTIL_MS, runs: 40, runMs: [300, 60_000] }),
  faultyDay({ untilMs: UNTIL_MS }),
);

function ran(day: Day): Bench {
  const bench = Bench.open(day);
  bench.run();
  return bench;
}

describe('step, runTo and run', () => {
  it('agree', () => {
    const check = (day: Day, stops: readonly number[]) => {
      const { events, steps } = ran(day);

      const stepped = Bench.open(day);
      while (stepped.step());
      stepped.run();
      expectSame(stepped.events, events);
      expect(stepped.steps).toBe(steps);

      const stopped = Bench.open(day);
      for (const stop of [...stops].sort((a, b) => a - b)) {
        stopped.runTo(stop);
        expect(stopped.nowMs).toBeLessThanOrEqual(stop);
        expect(stopped.nextMs()).toBeGreaterThan(stop);
        expectSame(
          stopped.events,
          events.filter(({ at }) => at <= stop),
        );
      }
      stopped.run();
      expectSame(stopped.events, events);
      expect(stopped.outcome()).toEqual(ran(day).outcome());
    };
    fc.assert(fc.property(DAY, fc.array(fc.nat(UNTIL_MS), { maxLength: 6 }), check), {
      ...PATIENT,
      numRuns: 16,
      seed: 1,
    });
  });

  it('go forward in time, and number events without a gap', () => {
    const check = (day: Day) => {
      const { events } = ran(day);
      const misplaced = events.filter(({ n, at, cause }, index) => {
        return n !== index + 1 || at < (events[index - 1]?.at ?? 0) || cause >= n || at > day.untilMs;
      });
      expect(misplaced).toEqual([]);
    };
    fc.assert(fc.property(DAY, check), { ...PATIENT, numRuns: 16, seed: 2 });
  });

  it('end with the day', () => {
    const day: Day = { ...fc.sample(DAY, { numRuns: 1, seed: 3 })[0]!, events: [], untilMs: 90_000 };
    const bench = Bench.open(day);
    expect(bench.nextMs()).toBe(60_000);
    bench.run();
    expect([bench.nowMs, bench.nextMs(), bench.step()]).toEqual([90_000, Infinity, false]);
    bench.runTo(1_000_000);
    expect(bench.nowMs).toBe(90_000);
  });
});

describe('a day without a trace, or with one that is only watched', () => {
  it('has the same outcome', () => {
    const check = (day: Day) => {
      const kept = Bench.open(day);
      const outcome = kept.run();
      expect(Bench.open(day, { trace: 'none' }).run()).toEqual(outcome);

      const seen: TraceEvent[] = [];
      const watched = Bench.open(day, { trace: 'watched', watchers: [(event) => seen.push(event)] });
      expect(watched.run()).toEqual(outcome);
      expectSame(seen, kept.events);
      expect(watched.events).toEqual([]);
    };
    fc.assert(fc.property(DAY, check), { ...PATIENT, numRuns: 16, seed: 4 });
  });
});
