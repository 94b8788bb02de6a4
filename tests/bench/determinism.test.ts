// The same day gives the same trace, byte for byte; a small change of the day gives another.
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { Bench } from '../../src/bench/bench.js';
import type { Day, DayEvent } from '../../src/scenario/day.js';
import { hashTrace, type TraceHashes } from '../../src/trace/hash.js';
import type { TraceEvent } from '../../src/trace/kinds.js';
import { arbitraryDay } from '../days/arbitrary-day.js';
import { PATIENCE_MS, PATIENT } from '../days/patience.js';

vi.setConfig({ testTimeout: PATIENCE_MS });

const HOUR_MS = 3_600_000;
const DAY = arbitraryDay({ untilMs: HOUR_MS, runs: 40, runMs: [300, 60_000] });
const ROUGH_DAY = arbitraryDay({ rough: true, untilMs: HOUR_MS / 2, runs: 40, runMs: [300, 60_000] });

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
  });

  it('is run without a change to it', () => {
    const check = (day: Day) => {
      const before = structuredClone(day);
      hashesOf(day);
      expect(day).toEqual(before);
    };
    fc.assert(fc.property(ROUGH_DAY, check), { ...PATIENT, numRuns: 5, seed: 4 });
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
});
