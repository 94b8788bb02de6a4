// A copy of a bench goes on exactly as the original would, and neither disturbs the other.
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { Bench, type BenchOptions, type Outcome } from '../../src/bench/bench.js';
import { actorEngine } from '../../src/bench/engines/actors.js';
import { faultyDay } from '../../src/prove/days/day.js';
import type { Day } from '../../src/scenario/day.js';
import type { TraceEvent } from '../../src/trace/kinds.js';
import { arbitraryDay } from '../days/arbitrary-day.js';
import { PATIENCE_MS, PATIENT } from '../days/patience.js';
import { RARE_DAYS } from '../days/rare-days.js';
import { expectSame } from './same-trace.js';
import { attack, cut, MINUTE_MS, pair, run, SECOND_MS, smallDay } from './small-day.js';

vi.setConfig({ testTimeout: PATIENCE_MS });

const UNTIL_MS = 1_800_000;
const DAY = arbitraryDay({ rough: true, untilMs: UNTIL_MS, runs: 40, runMs: [300, 60_000] });
const FAULTY_DAY = faultyDay({ untilMs: UNTIL_MS });
const MOMENT = fc.nat(UNTIL_MS);
/** Random days take half the time without keys; how a copy is made does not hang on them, and the days further down have them. */
const FAST: BenchOptions = { keys: false };

function ran(day: Day, options = FAST): { readonly events: readonly TraceEvent[]; readonly outcome: Outcome } {
  const bench = Bench.open(day, options);
  return { outcome: bench.run(), events: bench.events };
}

/** The bench and its copies at this moment go on to the same end, whichever of them runs first. */
function expectSameRest(day: Day, moment: number, forkFirst: boolean, options = FAST): void {
  const whole = ran(day, options);
  const bench = Bench.open(day, options);
  bench.runTo(moment);
  const fork = bench.fork();
  expect([fork.nowMs, fork.nextMs(), fork.steps]).toEqual([bench.nowMs, bench.nextMs(), bench.steps]);
  for (const one of forkFirst ? [fork, bench] : [bench, fork]) {
    expect(one.run()).toEqual(whole.outcome);
    expectSame(one.events, whole.events);
  }
}

describe('a fork', () => {
  it('at any moment goes on exactly like the original, to the end', () => {
    const check = (day: Day, moment: number, forkFirst: boolean) => expectSameRest(day, moment, forkFirst);
    fc.assert(fc.property(DAY, MOMENT, fc.boolean(), check), { ...PATIENT, numRuns: 30, seed: 1 });
    fc.assert(fc.property(FAULTY_DAY, MOMENT, fc.boolean(), check), { ...PATIENT, numRuns: 30, seed: 6 });
  });

  it('of a snapshot goes on from its moment every time, however far the original has run', () => {
    const check = (day: Day, moment: number) => {
      const whole = ran(day);
      const bench = Bench.open(day, FAST);
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
    fc.assert(fc.property(DAY, MOMENT, check), { ...PATIENT, numRuns: 10, seed: 3 });
    fc.assert(fc.property(FAULTY_DAY, MOMENT, check), { ...PATIENT, numRuns: 10, seed: 7 });
  });

  it('between any two steps does, while both go on step by step', () => {
    const check = (day: Day, steps: number) => {
      const whole = ran(day);
      const bench = Bench.open(day, FAST);
      for (let step = 0; step < steps && bench.step(); step++);
      const fork = bench.fork();
      for (let going = true; going; ) going = [bench.step(), fork.step()].includes(true);
      expect([bench.run(), fork.run()]).toEqual([whole.outcome, whole.outcome]);
      expectSame(bench.events, whole.events);
      expectSame(fork.events, whole.events);
    };
    fc.assert(fc.property(DAY, fc.nat(2000), check), { ...PATIENT, numRuns: 20, seed: 2 });
    fc.assert(fc.property(FAULTY_DAY, fc.nat(2000), check), { ...PATIENT, numRuns: 20, seed: 8 });
  });

  it('of a fork of a fork does, too', () => {
    const check = (day: Day, moments: readonly number[]) => {
      const whole = ran(day);
      const benches = [Bench.open(day, FAST)];
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

describe('a fork, and a snapshot, with keys,', () => {
  const KEYS: BenchOptions = { keys: true };
  const WORK = [pair(0, 'saw', 'Edda'), run(MINUTE_MS, 'saw', 'Edda', 5 * MINUTE_MS)];
  const at = (minutes: number, seconds: number, ms = 0) => minutes * MINUTE_MS + seconds * SECOND_MS + ms;

  const check = (day: Day, moment: number) => {
    for (const forkFirst of [false, true]) expectSameRest(day, moment, forkFirst, KEYS);
    const whole = ran(day, KEYS);
    const bench = Bench.open(day, KEYS);
    bench.runTo(moment);
    const snapshot = bench.snapshot();
    bench.run();
    const again = snapshot.open();
    expect(again.run()).toEqual(whole.outcome);
    expectSame(again.events, whole.events);
  };

  it.each<readonly [string, moment: number, Day]>([
    ['while a device is off', at(2, 10), smallDay([...WORK, cut(at(2, 0), 'saw', 'now', 20 * SECOND_MS)])],
    [
      'while all are off',
      at(2, 10),
      smallDay([...WORK, ...['saw', 'Edda'].map((one) => cut(at(2, 0), one, 'now', 20_000))]),
    ],
    ['while a power failure is planned', at(2, 0), smallDay([...WORK, cut(at(2, 0), 'Edda', 'write', 5000, 200)])],
    [
      'while a device sleeps on a poor cell',
      at(2, 10),
      smallDay([
        ...WORK,
        { atMs: at(2, 0), do: 'cell', device: 'saw', toPercent: 3 },
        { atMs: at(3, 0), do: 'cell', device: 'saw', toPercent: 80 },
      ]),
    ],
    [
      'while a clock drifts',
      at(7, 0),
      smallDay([...WORK, { atMs: at(1, 0), do: 'clock', device: 'saw', ppm: 900, driftPpm: 1000, forMs: at(8, 0) }]),
    ],
    [
      'while a page goes bad',
      at(2, 0),
      smallDay([...WORK, { atMs: at(1, 30), do: 'flash', device: 'saw', page: 0 }, cut(at(4, 0), 'saw', 'now', 1000)]),
    ],
    ...(['replay', 'alter', 'forge', 'flood'] as const).map((how) => {
      const day = smallDay([...WORK, attack(at(2, 0), how, 'saw', 'Edda', 3 * MINUTE_MS, 700)]);
      return [`under an attack that does ${how}`, at(3, 0), day] as const;
    }),
    ...[0, 1, 2, 3].map((ms) => {
      const day = smallDay([attack(0, 'middle', 'saw', 'Edda', MINUTE_MS), pair(1000, 'saw', 'Edda')]);
      return [`${ms} ms into a pairing with somebody in the middle`, 1000 + ms, day] as const;
    }),
  ])('%s goes on like the original', (_, moment, day) => check(day, moment));

  it('in the midst of an erase goes on like the original', () => {
    const day = RARE_DAYS['journals that go round, and power that fails in their erases']!;
    const erases = ran(day, KEYS).events.filter(({ kind }) => kind === 'flash.erase');
    expect(new Set(erases.map(({ by }) => by))).toEqual(new Set(['saw', 'Edda']));
    for (const by of ['saw', 'Edda']) check(day, erases.find((event) => event.by === by)!.at + 50);
  });
});
