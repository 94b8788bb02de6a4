// Windows that come from samples: a day is counted as it was worked, whatever happens to it meanwhile, and always the same.
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { Bench } from '../../src/bench/bench.js';
import { faultyDay } from '../../src/prove/days/day.js';
import { tryDay } from '../../src/prove/try-day.js';
import { type Day, type DayEvent, SAMPLED_VIBRATIONS, type ToolSpec } from '../../src/scenario/day.js';
import { PATIENCE_MS, PATIENT } from '../days/patience.js';
import { tool } from '../rig/day.js';
import { expectSame } from './same-trace.js';
import { cut, eventsOf, MINUTE_MS, run, smallDay, traceOf } from './small-day.js';

vi.setConfig({ testTimeout: PATIENCE_MS });

const SAW: ToolSpec = tool('saw', 40, { hand: 'rotary', samples: 'rotary' });
const BREAKER: ToolSpec = tool('breaker', 120, { samples: 'percussive' });

function carry(atMs: number, tool: string, forMs: number): DayEvent {
  return { atMs, do: 'carry', tool, forMs };
}

function sampledDay(events: readonly DayEvent[], tools = [SAW, BREAKER]): Day {
  return smallDay(events, { tools, untilMs: 3 * MINUTE_MS });
}

function windowsOf(day: Day, tool: string): number {
  return Bench.open(day).run().counters[tool]!.triggerWindows;
}

describe('a tool whose windows come from samples', () => {
  it.each(SAMPLED_VIBRATIONS)('%s is counted to the window where it starts and stops with one', (samples) => {
    const day = sampledDay([run(10_000, 'saw', 'Edda', 12_000)], [{ ...SAW, samples }]);
    expect(windowsOf(day, 'saw')).toBe(120);
    expect(tryDay(day)).toEqual([]);
  });

  it('says what it is, so that a trace is read right', () => {
    const [saw] = eventsOf(sampledDay([], [{ ...SAW, samples: 'idling' }]), 'hand.tool');
    expect(saw?.character).toBe('idling');
  });

  it('rattles and is counted where it lies running on the ground', () => {
    expect(windowsOf(sampledDay([run(10_000, 'saw', 'Edda', 12_000, false)]), 'saw')).toBe(120);
  });

  it('comes to rest a moment after it was let go, and its hand is free', () => {
    const day = sampledDay([
      run(10_000, 'breaker', 'Edda', 60_000),
      { atMs: 20_000, do: 'leave', who: ['Edda', 'saw'], forMs: null },
      run(20_001, 'saw', 'Edda', 5000),
    ]);
    expect(eventsOf(day, 'hand.stop').map(({ at, tool }) => `${at} ${tool}`)).toEqual(['20090 breaker', '25001 saw']);
    expect(windowsOf(day, 'breaker')).toBe(101);
    expect(tryDay(day)).toEqual([]);
  });

  it('is counted on when power is back, and by a clock that is off', () => {
    const day = sampledDay([
      { atMs: 0, do: 'clock', device: 'saw', ppm: 20_000, driftPpm: 0, forMs: null },
      run(10_000, 'saw', 'Edda', 50_000),
      cut(20_030, 'saw', 'now', 10_000),
      { atMs: 40_050, do: 'clock', device: 'saw', ppm: -20_000, driftPpm: 0, forMs: 7000 },
    ]);
    expect(windowsOf(day, 'saw')).toBeGreaterThan(380);
    expect(tryDay(day)).toEqual([]);
  });

  it('draws nothing that others draw from: another tool of the day reads and sends as before', () => {
    const events = [run(10_000, 'breaker', 'Edda', 12_000)];
    const told = (samples: boolean) =>
      traceOf(
        smallDay(
          events,
          samples ? { tools: [tool('breaker', 120), SAW] } : { tools: [tool('breaker', 120), tool('saw', 40)] },
        ),
      )
        .filter(({ by, kind }) => by === 'breaker' && !kind.startsWith('hand.'))
        .map(({ n, cause, ...rest }) => rest);
    expect(told(true)).toEqual(told(false));
  });
});

describe('a tool that is carried', () => {
  const LEVELS = [tool('saw', 40, { hand: 'rotary' })];
  /** Its road is a bad one. */
  const DRIVE = carry(20_000, 'saw', 2 * MINUTE_MS);

  it('is counted though it does not run, whether it is sampled otherwise or not', () => {
    for (const tools of [LEVELS, [SAW]]) {
      const day = sampledDay([DRIVE], tools);
      expect(windowsOf(day, 'saw')).toBeGreaterThan(50);
      expect(eventsOf(day, 'hand.start')).toEqual([]);
      expect(tryDay(day)).toEqual([]);
    }
  });

  it('is traced from its going to its arrival, and reads its level again when it runs', () => {
    const drive = sampledDay([DRIVE], LEVELS);
    expect(eventsOf(drive, 'hand.carry').map(({ at, by }) => [at, by])).toEqual([[20_000, 'saw']]);
    expect(eventsOf(drive, 'hand.arrive').map(({ at, by }) => [at, by])).toEqual([[140_000, 'saw']]);
    const worked = sampledDay([DRIVE, run(140_000, 'saw', 'Edda', 10_000)], LEVELS);
    expect(windowsOf(worked, 'saw') - windowsOf(drive, 'saw')).toBeGreaterThanOrEqual(99);
    expect(windowsOf(worked, 'saw') - windowsOf(drive, 'saw')).toBeLessThanOrEqual(102);
  });
});

/** A faulty day on which tools are sampled, and some are taken for a drive. */
const FAULTY = fc
  .tuple(
    faultyDay({ untilMs: 30 * MINUTE_MS }),
    fc.array(fc.record({ atMs: fc.nat(20 * MINUTE_MS), forMs: fc.integer({ min: 1, max: MINUTE_MS }) }), {
      maxLength: 3,
    }),
    fc.integer({ min: 0, max: 3 }),
  )
  .map(([day, drives, first]): Day => {
    const tools = day.tools.map((spec, index): ToolSpec => {
      const samples = SAMPLED_VIBRATIONS[(first + index) % SAMPLED_VIBRATIONS.length]!;
      return index % 2 === 0 ? { ...spec, samples } : spec;
    });
    const carried = drives.map(({ atMs, forMs }, index) => carry(atMs, tools[index % tools.length]!.name, forMs));
    return { ...day, tools, events: [...day.events, ...carried].sort((a, b) => a.atMs - b.atMs) };
  });

describe('on random days with faults', () => {
  it('all that must hold holds', () => {
    fc.assert(
      fc.property(FAULTY, (day) => {
        expect(tryDay(day, { keys: false })).toEqual([]);
      }),
      { ...PATIENT, numRuns: 12, seed: 4 },
    );
  });

  it('a copy goes on like the original', () => {
    fc.assert(
      fc.property(FAULTY, fc.nat(20 * MINUTE_MS), (day, moment) => {
        const bench = Bench.open(day, { keys: false });
        bench.runTo(moment);
        const fork = bench.fork();
        expect(fork.run()).toEqual(bench.run());
        expectSame(fork.events, bench.events);
      }),
      { ...PATIENT, numRuns: 4, seed: 5 },
    );
  });
});
