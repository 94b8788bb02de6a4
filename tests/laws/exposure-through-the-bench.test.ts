// Dose and points of arbitrary days, run through the bench, are those of ISO 5349-1. The oracle below works in BigInt from what
// truly happened (the hand. events), and takes nothing from src: no formula, no constant, no device.
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { Bench } from '../../src/bench/bench.js';
import type { Day } from '../../src/scenario/day.js';
import type { EventOf, Kind, TraceEvent } from '../../src/trace/kinds.js';
import { arbitraryDay } from '../days/arbitrary-day.js';
import { Distribution } from '../days/distribution.js';
import { PATIENCE_MS, PATIENT } from '../days/patience.js';

vi.setConfig({ testTimeout: PATIENCE_MS });

const HOUR_MS = 3_600_000;
const WINDOW_MS = 100;

function of<K extends Kind>(events: readonly TraceEvent[], kind: K): readonly EventOf<K>[] {
  return events.filter((event) => event.kind === kind) as unknown as readonly EventOf<K>[];
}

// ---- The oracle ----

interface Burst {
  readonly tool: string;
  readonly fromMs: number;
  readonly untilMs: number;
}

/** What truly ran, by tool in the order of the day. */
function burstsOf(events: readonly TraceEvent[]): readonly Burst[] {
  const stops = of(events, 'hand.stop');
  return of(events, 'hand.start').map(({ tool, at, n }) => {
    const stop = stops.find((one) => one.tool === tool && one.n > n);
    if (stop === undefined) throw new Error(`${tool} runs into the night`);
    return { tool, fromMs: at, untilMs: stop.at };
  });
}

/** Magnitudes in force on a counter, tenths of m/s², 0 for none: as keyed before the day, then from each committing push on. */
function magnitudesOf(
  day: Day,
  events: readonly TraceEvent[],
  tool: string,
): readonly { fromMs: number; tenths: bigint }[] {
  const keyed = of(events, 'hand.tool').find(({ by }) => by === tool)!.keyedTenths;
  const set = of(events, 'hand.done').filter(({ by, verb }) => by === tool && verb === 'set');
  const committed = set.map(({ n, cause }) => {
    const begun = events[cause - 1]!.at;
    const order = day.events.find((event) => event.do === 'set' && event.tool === tool && event.atMs === begun);
    const push = of(events, 'input.push').findLast((event) => event.by === tool && event.n < n);
    if (order?.do !== 'set' || push === undefined) throw new Error(`${tool} was set, but nobody did it`);
    return { fromMs: push.at, tenths: BigInt(order.toTenths) };
  });
  return [{ fromMs: 0, tenths: BigInt(keyed) }, ...committed];
}

interface Sum {
  /** Σ a²·T with a in tenths of m/s² and T in ms. */
  dose: bigint;
  triggerMs: number;
  unratedMs: number;
}

const nothing = (): Sum => ({ dose: 0n, triggerMs: 0, unratedMs: 0 });

/** Who is charged with what a tool does from one moment to another; `with` is '' for nobody. */
interface Session {
  readonly with: string;
  readonly session: number;
  readonly afterMs: number;
  readonly untilMs: number;
}

function sessionsOf(events: readonly TraceEvent[], tool: string): readonly Session[] {
  const own = of(events, 'inner.session').filter(({ by }) => by === tool);
  return own
    .filter(({ what }) => what === 'opened')
    .map(({ at, session, with: worker }) => {
      const sealed = own.find((event) => event.what === 'sealed' && event.session === session);
      return { with: worker, session, afterMs: at, untilMs: sealed?.at ?? Infinity };
    });
}

/**
 * What each session of each tool should come to, by "tool session", "tool 0" being what nobody is charged with. A window of
 * 100 ms is counted when it ends, the first of a burst with the second; a burst of one window is too short to be one (TRG-1,
 * TRG-3). The magnitude is the one in force when the window began (MAG-5).
 */
function expectedSums(day: Day, events: readonly TraceEvent[]): ReadonlyMap<string, Sum> {
  const sums = new Map<string, Sum>();
  const sessions = new Map(day.tools.map(({ name }) => [name, sessionsOf(events, name)]));
  const magnitudes = new Map(day.tools.map(({ name }) => [name, magnitudesOf(day, events, name)]));
  for (const { tool, fromMs, untilMs } of burstsOf(events)) {
    if (untilMs - fromMs < 2 * WINDOW_MS) continue;
    for (let beginsMs = fromMs; beginsMs < untilMs; beginsMs += WINDOW_MS) {
      const countedMs = Math.max(beginsMs, fromMs + WINDOW_MS) + WINDOW_MS;
      const session = sessions.get(tool)!.find((one) => countedMs > one.afterMs && countedMs <= one.untilMs);
      const { tenths } = magnitudes.get(tool)!.findLast((one) => one.fromMs <= beginsMs)!;
      const name = `${tool} ${session?.session ?? 0}`;
      const sum = sums.get(name) ?? nothing();
      sums.set(name, sum);
      sum.dose += tenths * tenths * BigInt(WINDOW_MS);
      sum.triggerMs += WINDOW_MS;
      if (tenths === 0n) sum.unratedMs += WINDOW_MS;
    }
  }
  return sums;
}

/** ISO 5349-1 by way of points, n = 2·a²·T with a in m/s² and T in hours, cut to whole ones. */
function wholePoints(dose: bigint): bigint {
  return (2n * dose) / (10n * 10n * 3_600_000n);
}

/** Whether the daily exposure A(8) = √(Σ a²·T / 8 h) has reached, or exceeded, what makes so many points (100 make 2.5 m/s²). */
function hasPassed(dose: bigint, points: number, compare: string): boolean {
  // Squared and without fractions: A(8)² = dose / (100 · 28 800 000), against 2.5² · points / 100.
  const [exposure, level] = [dose * 100n * 4n, 25n * BigInt(points) * 100n * 28_800_000n];
  return compare === 'reached' ? exposure >= level : exposure > level;
}

// ---- What the devices say ----

/** The last that a counter counted in each session, and that a ledger holds of it, by "tool session". */
function lastOf(events: readonly TraceEvent[], kind: 'inner.count' | 'inner.ledger'): ReadonlyMap<string, Sum> {
  const last = new Map<string, Sum>();
  for (const event of events) {
    if (event.kind !== kind) continue;
    const tool = event.kind === 'inner.count' ? event.by : event.counter;
    const { dose, triggerWindows, unratedWindows } = event;
    last.set(`${tool} ${event.session}`, {
      dose: BigInt(dose),
      triggerMs: triggerWindows * WINDOW_MS,
      unratedMs: unratedWindows * WINDOW_MS,
    });
  }
  return last;
}

function isSome({ triggerMs }: Sum): boolean {
  return triggerMs > 0;
}

function filled(sums: ReadonlyMap<string, Sum>): Readonly<Record<string, Sum>> {
  return Object.fromEntries([...sums].filter(([, sum]) => isSome(sum)).sort());
}

/** What each session came to that somebody is charged with. */
function claimed(sums: ReadonlyMap<string, Sum>): ReadonlyMap<string, Sum> {
  return new Map([...sums].filter(([name]) => !name.endsWith(' 0')));
}

/** For each burst of a tool, in order, the running time that its counter has counted for it. */
function countedMs(events: readonly TraceEvent[], tool: string, bursts: readonly Burst[]): readonly number[] {
  const counts = of(events, 'inner.count').filter(({ by }) => by === tool);
  let before = 0;
  return bursts.map((_, index) => {
    const untilMs = bursts[index + 1]?.fromMs ?? Infinity;
    const sums = lastOf(
      counts.filter(({ at }) => at <= untilMs),
      'inner.count',
    );
    const total = [...sums.values()].reduce((sum, { triggerMs }) => sum + triggerMs, 0);
    const counted = total - before;
    before = total;
    return counted;
  });
}

/** Without keys, for the sake of speed: what is counted and charged does not hang on them. */
function ran(day: Day): readonly TraceEvent[] {
  const bench = Bench.open(day, { keys: false });
  bench.run();
  return bench.events;
}

describe('where bursts lie on windows', () => {
  const seen = new Distribution();

  it('every counter, ledger, display and alert agrees with ISO 5349-1 to the last u', () => {
    const check = (day: Day) => {
      const events = ran(day);
      seen.see(events);
      const expected = expectedSums(day, events);
      expect(filled(lastOf(events, 'inner.count'))).toEqual(filled(expected));
      expect(filled(lastOf(events, 'inner.ledger'))).toEqual(filled(claimed(expected)));
      for (const { name } of day.workers) expectWorker(events, name, expected);
    };
    fc.assert(fc.property(arbitraryDay({ aligned: true }), check), { ...PATIENT, numRuns: 60, seed: 1 });
    seen.printAndHold('aligned');
  });

  /** Points shown and alerts raised, for whoever had one shift only: most do. */
  function expectWorker(events: readonly TraceEvent[], worker: string, sums: ReadonlyMap<string, Sum>): void {
    if (of(events, 'inner.shift').filter(({ by, what }) => by === worker && what === 'opened').length !== 1) return;
    const own = of(events, 'inner.session').filter((event) => event.what === 'opened' && event.with === worker);
    const shares = own.map(({ by, session }) => sums.get(`${by} ${session}`) ?? nothing());
    const dose = shares.reduce((sum, share) => sum + share.dose, 0n);
    const unrated = shares.some(({ unratedMs }) => unratedMs > 0);
    const shown = of(events, 'shown.display').findLast(({ by }) => by === worker)!;
    const points = wholePoints(dose);
    // MAG-6: time without a magnitude is never shown as zero points.
    expect(shown).toMatchObject({ value: points === 0n && unrated ? -1 : Number(points) });
    const { levels } = of(events, 'hand.worker').find(({ by }) => by === worker)!;
    const raised = of(events, 'shown.alert').filter(({ by, again }) => by === worker && again === 0);
    const due = levels.filter(({ points, compare }) => hasPassed(dose, points, compare));
    expect(raised.map(({ level }) => level)).toEqual(due.map(({ level }) => level));
  }
});

describe('where bursts begin and end at any millisecond', () => {
  /** TRG-4: one window at each end. */
  const SLACK_MS = 2 * WINDOW_MS;
  const seen = new Distribution();

  it('every burst is counted within one window at each end, and so is its dose (TRG-4)', () => {
    const check = (day: Day) => {
      const events = ran(day);
      seen.see(events);
      const counts = lastOf(events, 'inner.count');
      expect(filled(lastOf(events, 'inner.ledger'))).toEqual(filled(claimed(counts)));
      for (const { name } of day.tools) {
        const bursts = burstsOf(events).filter(({ tool }) => tool === name);
        expectBursts(bursts, countedMs(events, name, bursts));
        expectDose(day, events, name, bursts, counts);
      }
    };
    fc.assert(fc.property(arbitraryDay({ untilMs: 4 * HOUR_MS }), check), { ...PATIENT, numRuns: 50, seed: 2 });
    seen.printAndHold('not aligned');
  });

  /** A burst below 300 ms is one that somebody cut short by leaving: it may be too short to be one. */
  function expectBursts(bursts: readonly Burst[], counted: readonly number[]): void {
    for (const [index, { fromMs, untilMs }] of bursts.entries()) {
      const trueMs = untilMs - fromMs;
      expect(counted[index]).toBeGreaterThanOrEqual(trueMs < 300 ? 0 : trueMs - SLACK_MS);
      expect(counted[index]).toBeLessThanOrEqual(trueMs + SLACK_MS);
    }
  }

  function expectDose(
    day: Day,
    events: readonly TraceEvent[],
    tool: string,
    bursts: readonly Burst[],
    counts: ReadonlyMap<string, Sum>,
  ): void {
    const magnitudes = magnitudesOf(day, events, tool);
    const at = (ms: number) => magnitudes.findLast(({ fromMs }) => fromMs <= Math.max(0, ms))!.tenths;
    let [least, greatest] = [0n, 0n];
    for (const { fromMs, untilMs } of bursts) {
      // A magnitude may come into force while a start is not yet seen: either may then rate what the burst begins with.
      const squares = [at(fromMs - WINDOW_MS), at(fromMs + 2 * WINDOW_MS)].map((tenths) => tenths * tenths);
      const [low, high] = squares[0]! < squares[1]! ? [squares[0]!, squares[1]!] : [squares[1]!, squares[0]!];
      const trueMs = untilMs - fromMs;
      least += low * BigInt(trueMs < 300 ? 0 : trueMs - SLACK_MS);
      greatest += high * BigInt(trueMs + SLACK_MS);
    }
    const own = [...counts].filter(([name]) => name.startsWith(`${tool} `));
    const dose = own.reduce((sum, [, one]) => sum + one.dose, 0n);
    expect(dose >= least && dose <= greatest, `${tool}: ${least} ≤ ${dose} ≤ ${greatest}`).toBe(true);
  }

  it('a day of bursts of 10 s and more is counted within 1 % (TRG-4)', () => {
    let days = 0;
    const check = (day: Day) => {
      const events = ran(day);
      const bursts = burstsOf(events);
      // The bound is one of a day's work: a single burst of 10 s may be off by two windows, 2 %.
      fc.pre(bursts.length >= 20);
      days += 1;
      const trueMs = bursts.reduce((sum, { fromMs, untilMs }) => sum + untilMs - fromMs, 0);
      const counted = [...lastOf(events, 'inner.count').values()].reduce((sum, { triggerMs }) => sum + triggerMs, 0);
      expect(Math.abs(counted - trueMs)).toBeLessThanOrEqual(trueMs / 100);
    };
    const day = arbitraryDay({ untilMs: 4 * HOUR_MS, runMs: [10_000, 240_000], changes: false });
    fc.assert(fc.property(day, check), { ...PATIENT, numRuns: 20, seed: 3 });
    expect(days).toBe(20);
  });
});
