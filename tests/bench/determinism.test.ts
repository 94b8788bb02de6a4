// The same day gives the same trace, byte for byte; a small change of the day gives another. All days have keys here: they are
// the bytes of the trace, too.
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { Bench } from '../../src/bench/bench.js';
import { faultyDay } from '../../src/prove/days/day.js';
import type { Day, DayEvent } from '../../src/scenario/day.js';
import { hashTrace, type TraceHashes } from '../../src/trace/hash.js';
import type { TraceEvent } from '../../src/trace/kinds.js';
import { arbitraryDay } from '../days/arbitrary-day.js';
import { PATIENCE_MS, PATIENT } from '../days/patience.js';
import { attack, cut, MINUTE_MS, pair, run, smallDay } from './small-day.js';

vi.setConfig({ testTimeout: PATIENCE_MS });

const HOUR_MS = 3_600_000;
const DAY = arbitraryDay({ untilMs: HOUR_MS, runs: 40, runMs: [300, 60_000] });
const ROUGH_DAY = arbitraryDay({ rough: true, untilMs: HOUR_MS / 2, runs: 40, runMs: [300, 60_000] });
const FAULTY_DAY = faultyDay({ untilMs: HOUR_MS / 2 });

function eventsOf(day: Day): readonly TraceEvent[] {
  const bench = Bench.open(day);
  bench.run();
  return bench.events;
}

function hashesOf(day: Day): TraceHashes {
  return hashTrace(eventsOf(day));
}

/** What follows the opening, which repeats the day's own figures and so differs wherever they do. */
function afterOpening(day: Day): TraceHashes {
  return hashTrace(eventsOf(day).filter(({ kind }) => !['hand.day', 'hand.tool', 'hand.worker'].includes(kind)));
}

/** Index of the first run that truly happens to the end, and is counted by a counter that knows a magnitude. */
function workedRun(day: Day): number {
  const starts = eventsOf(day).filter((event) => event.kind === 'hand.start');
  return day.events.findIndex(({ do: verb, atMs, ...event }) => {
    return verb === 'run' && starts.some((start) => start.at === atMs && 'tool' in event && start.tool === event.tool);
  });
}

describe('one day', () => {
  it('gives the same hashes each time', () => {
    const same = (day: Day) => {
      expect(hashesOf(structuredClone(day))).toEqual(hashesOf(day));
    };
    fc.assert(fc.property(DAY, same), { ...PATIENT, numRuns: 10, seed: 1 });
    fc.assert(fc.property(ROUGH_DAY, same), { ...PATIENT, numRuns: 10, seed: 2 });
    fc.assert(fc.property(FAULTY_DAY, same), { ...PATIENT, numRuns: 20, seed: 7 });
  });

  it('is not changed by days that run in between', () => {
    const check = (day: Day, other: Day) => {
      const bench = Bench.open(day);
      bench.runTo(day.untilMs / 2);
      hashesOf(other);
      bench.run();
      expect(hashTrace(bench.events)).toEqual(hashesOf(day));
    };
    fc.assert(fc.property(ROUGH_DAY, ROUGH_DAY, check), { ...PATIENT, numRuns: 10, seed: 3 });
    fc.assert(fc.property(FAULTY_DAY, FAULTY_DAY, check), { ...PATIENT, numRuns: 10, seed: 8 });
  });

  it('is run without a change to it', () => {
    const check = (day: Day) => {
      const before = structuredClone(day);
      hashesOf(day);
      expect(day).toEqual(before);
    };
    fc.assert(fc.property(ROUGH_DAY, check), { ...PATIENT, numRuns: 5, seed: 4 });
    fc.assert(fc.property(FAULTY_DAY, check), { ...PATIENT, numRuns: 5, seed: 9 });
  });
});

describe('another hash, whole and outward, comes from', () => {
  const differs = (change: (day: Day, run: number) => Day, hashes = afterOpening) => {
    const worked = DAY.filter((day) => workedRun(day) !== -1);
    const check = (day: Day) => {
      const [before, after] = [hashes(day), hashes(change(day, workedRun(day)))];
      expect(after.whole).not.toBe(before.whole);
      expect(after.outward).not.toBe(before.outward);
    };
    fc.assert(fc.property(worked, check), { ...PATIENT, numRuns: 6, seed: 5 });
  };

  const changedTool = (day: Day, run: number, change: Partial<Day['tools'][number]>) => {
    const { tool } = day.events[run] as DayEvent & { do: 'run' };
    return { ...day, tools: day.tools.map((spec) => (spec.name === tool ? { ...spec, ...change } : spec)) };
  };

  const changedRun = (day: Day, run: number, laterMs: number, longerMs: number): Day => {
    const events = day.events.map((event, index) => {
      if (index !== run || event.do !== 'run') return event;
      return { ...event, atMs: event.atMs + laterMs, forMs: event.forMs + longerMs };
    });
    return { ...day, events: events.sort((a, b) => a.atMs - b.atMs) };
  };

  it('another seed', () => {
    // Some days ask for no chance at all; those with a pairing do.
    const paired = DAY.filter((day) => eventsOf(day).some(({ kind }) => kind === 'air.pairing'));
    const check = (day: Day) => {
      expect(afterOpening({ ...day, seed: day.seed ^ 1 })).not.toEqual(afterOpening(day));
      expect(hashesOf({ ...day, seed: day.seed ^ 1 }).outward).not.toBe(hashesOf(day).outward);
    };
    fc.assert(fc.property(paired, check), { ...PATIENT, numRuns: 6, seed: 6 });
  });

  it('0.1 m/s² more at the handle', () => {
    const more = (day: Day, run: number) => {
      const { tool } = day.events[run] as DayEvent & { do: 'run' };
      const { magnitudeTenths } = day.tools.find(({ name }) => name === tool)!;
      return changedTool(day, run, { magnitudeTenths: magnitudeTenths + 1 });
    };
    differs(more, hashesOf);
  });

  it('0.1 m/s² more on the counter', () => {
    differs((day, run) => {
      const { tool } = day.events[run] as DayEvent & { do: 'run' };
      const { keyedTenths } = day.tools.find(({ name }) => name === tool)!;
      return changedTool(day, run, { keyedTenths: (keyedTenths ?? 49) + 1 });
    });
  });

  it('a burst that is 100 ms longer, or begins 100 ms later', () => {
    differs((day, run) => changedRun(day, run, 0, 100));
    differs((day, run) => changedRun(day, run, 100, 0));
  });

  it('a fault that is a little different', () => {
    const work = [pair(0, 'saw', 'Edda'), run(MINUTE_MS, 'saw', 'Edda', 5 * MINUTE_MS)];
    const [atMs, device] = [2 * MINUTE_MS, 'saw'];
    const clock = (ppm: number, driftPpm: number): DayEvent => ({
      atMs,
      do: 'clock',
      device,
      ppm,
      driftPpm,
      forMs: null,
    });
    const cell = (toPercent: number): DayEvent => ({ atMs, do: 'cell', device, toPercent });
    const page = (number: number): DayEvent => ({ atMs, do: 'flash', device, page: number });
    const flood = (everyMs: number, at = atMs) => attack(at, 'flood', 'saw', 'Edda', MINUTE_MS, everyMs);
    const pairs: readonly (readonly [DayEvent, DayEvent])[] = [
      [cut(atMs, 'saw', 'now', 1000), cut(atMs, 'saw', 'now', 1001)],
      [cut(atMs, 'saw', 'now', 1000), cut(atMs + 1, 'saw', 'now', 1000)],
      [cut(atMs, 'saw', 'now', 1000), cut(atMs, 'Edda', 'now', 1000)],
      [cut(atMs, 'saw', 'write', 1000, 0), cut(atMs, 'saw', 'write', 1000, 50)],
      [clock(400, 0), clock(401, 0)],
      [clock(400, 0), clock(400, 1)],
      [cell(50), cell(49)],
      [page(0), page(1)],
      [flood(1000), flood(1001)],
      [flood(1000), flood(1000, atMs + 1)],
    ];
    for (const [one, other] of pairs) {
      const [before, after] = [hashesOf(smallDay([...work, one])), hashesOf(smallDay([...work, other]))];
      expect(after.whole).not.toBe(before.whole);
      expect(after.outward).not.toBe(before.outward);
    }
  });
});
