// A copy of a bench goes on exactly as the original would, and neither disturbs the other.
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { Bench, type Outcome } from '../../src/bench/bench.js';
import { actorEngine } from '../../src/bench/engines/actors.js';
import type { Day } from '../../src/scenario/day.js';
import type { TraceEvent } from '../../src/trace/kinds.js';
import { arbitraryDay } from '../days/arbitrary-day.js';
import { PATIENCE_MS, PATIENT } from '../days/patience.js';
import { expectSame } from './same-trace.js';

vi.setConfig({ testTimeout: PATIENCE_MS });

const UNTIL_MS = 1_800_000;
const DAY = arbitraryDay({ rough: true, untilMs: UNTIL_MS, runs: 40, runMs: [300, 60_000] });
const MOMENT = fc.nat(UNTIL_MS);

function ran(day: Day): { readonly events: readonly TraceEvent[]; readonly outcome: Outcome } {
  const bench = Bench.open(day);
  return { outcome: bench.run(), events: bench.events };
}

describe('a fork', () => {
  it('at any moment goes on exactly like the original, to the end', () => {
    const check = (day: Day, moment: number, forkFirst: boolean) => {
      const whole = ran(day);
      const bench = Bench.open(day);
      bench.runTo(moment);
      const fork = bench.fork();
      expect([fork.nowMs, fork.nextMs(), fork.steps]).toEqual([bench.nowMs, bench.nextMs(), bench.steps]);
      for (const one of forkFirst ? [fork, bench] : [bench, fork]) {
        expect(one.run()).toEqual(whole.outcome);
        expectSame(one.events, whole.events);
      }
    };
    fc.assert(fc.property(DAY, MOMENT, fc.boolean(), check), { ...PATIENT, numRuns: 40, seed: 1 });
  });

  it('of a snapshot goes on from its moment every time, however far the original has run', () => {
    const check = (day: Day, moment: number) => {
      const whole = ran(day);
      const bench = Bench.open(day);
      bench.runTo(moment);
      const snapshot = bench.snapshot();
      const events = bench.events.length;
      bench.run();
      for (const one of [snapshot.open(), snapshot.open()]) {
        expect(one.events.length).toBe(events);
        expect(one.run()).toEqual(whole.outcome);
        expectSame(one.events, whole.events);
      }
    };
    fc.assert(fc.property(DAY, MOMENT, check), { ...PATIENT, numRuns: 15, seed: 3 });
  });

  it('between any two steps does, while both go on step by step', () => {
    const check = (day: Day, steps: number) => {
      const whole = ran(day);
      const bench = Bench.open(day);
      for (let step = 0; step < steps && bench.step(); step++);
      const fork = bench.fork();
      for (let going = true; going; ) going = [bench.step(), fork.step()].includes(true);
      expect([bench.run(), fork.run()]).toEqual([whole.outcome, whole.outcome]);
      expectSame(bench.events, whole.events);
      expectSame(fork.events, whole.events);
    };
    fc.assert(fc.property(DAY, fc.nat(2000), check), { ...PATIENT, numRuns: 30, seed: 2 });
  });

  it('of a fork of a fork does, too', () => {
    const check = (day: Day, moments: readonly number[]) => {
      const whole = ran(day);
      const benches = [Bench.open(day)];
      for (const moment of [...moments].sort((a, b) => a - b)) {
        for (const bench of benches) bench.runTo(moment);
        benches.push(benches.at(-1)!.fork());
      }
      for (const bench of benches.reverse()) {
        expect(bench.run()).toEqual(whole.outcome);
        expectSame(bench.events, whole.events);
      }
    };
    fc.assert(fc.property(DAY, fc.array(MOMENT, { minLength: 2, maxLength: 4 }), check), {
      ...PATIENT,
      numRuns: 15,
      seed: 3,
    });
  });

  it('takes no watcher along', () => {
    const [day] = fc.sample(DAY, { numRuns: 1, seed: 4 });
    let seen = 0;
    const bench = Bench.open(day!, { trace: 'watched', watchers: [() => seen++] });
    bench.runTo(UNTIL_MS / 2);
    const before = seen;
    const fork = bench.fork();
    const outcome = fork.run();
    expect(seen).toBe(before);
    expect(bench.run()).toEqual(outcome);
    expect(seen).toBeGreaterThan(before);
  });

  it('of a bench on actors is refused', () => {
    const [day] = fc.sample(DAY, { numRuns: 1, seed: 5 });
    expect(() => Bench.open(day!, { engine: actorEngine }).fork()).toThrow('actors cannot be copied');
  });
});
