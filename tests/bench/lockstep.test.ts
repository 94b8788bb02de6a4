// Both engines give the same trace, event by event, for days in which anything may happen.
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { Bench } from '../../src/bench/bench.js';
import { actorEngine } from '../../src/bench/engines/actors.js';
import { counterMachine } from '../../src/counter/chart.js';
import { faultyDay } from '../../src/prove/days/day.js';
import type { Day } from '../../src/scenario/day.js';
import { hashTrace } from '../../src/trace/hash.js';
import { wearableMachine } from '../../src/wearable/chart.js';
import { arbitraryDay } from '../days/arbitrary-day.js';
import { PATIENCE_MS, PATIENT } from '../days/patience.js';
import { RARE_DAYS } from '../days/rare-days.js';
import { expectSame } from './same-trace.js';
import { noting, transitionsOf } from './transitions.js';

vi.setConfig({ testTimeout: PATIENCE_MS });

const HOUR_MS = 3_600_000;
const taken = new Map<string, Set<string>>();
const actors = noting(actorEngine, taken);
let days = 0;

/** keys: whether frames are sealed with keys; without them a day takes half the time, and the charts do the same. */
function expectLockstep(day: Day, keys: boolean): void {
  const [onTable, onActors] = [Bench.open(day, { keys }), Bench.open(day, { engine: actors, keys })];
  const outcomes = [onTable.run(), onActors.run()];
  expectSame(onTable.events, onActors.events);
  expect(hashTrace(onActors.events)).toEqual(hashTrace(onTable.events));
  expect(outcomes[1]).toEqual(outcomes[0]);
  days += 1;
}

describe('both engines give identical traces', () => {
  it('for rough days: any gesture, fault and run at any moment', () => {
    const day = arbitraryDay({ rough: true, untilMs: HOUR_MS, runs: 40, runMs: [300, 60_000] });
    const check = (one: Day) => expectLockstep(one, false);
    fc.assert(fc.property(day, check), { ...PATIENT, numRuns: 50, seed: 1 });
  });

  it('for orderly days', () => {
    const day = arbitraryDay({ untilMs: 1.5 * HOUR_MS, runs: 60, runMs: [300, 60_000] });
    const check = (one: Day) => expectLockstep(one, true);
    fc.assert(fc.property(day, check), { ...PATIENT, numRuns: 12, seed: 2 });
  });

  it('for days on which power, cells, clocks, pages and the air fail, and somebody attacks', () => {
    const check = (one: Day, keys: boolean) => expectLockstep(one, keys);
    const day = faultyDay({ untilMs: HOUR_MS });
    fc.assert(fc.property(day, fc.boolean(), check), { ...PATIENT, numRuns: 40, seed: 3 });
  });

  it.each(Object.entries(RARE_DAYS))('for %s', (_, day) => {
    expectLockstep(day, true);
  });

  it('and between them these days take every transition of both charts', () => {
    const missed: string[] = [];
    const covered = [counterMachine, wearableMachine].map((machine) => {
      const all = transitionsOf(machine);
      const names = taken.get(machine.id) ?? new Set();
      missed.push(...all.filter((name) => !names.has(name)));
      return `${names.size} of ${all.length} transitions of the ${machine.id}`;
    });
    process.stdout.write(`lockstep: ${days} days, ${covered.join(', ')}\n`);
    expect(missed).toEqual([]);
    expect(days).toBeGreaterThanOrEqual(100);
  });
});
