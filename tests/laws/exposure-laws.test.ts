// Laws of exposure that need no oracle, held by days that are run through the bench.
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { Bench, type Outcome } from '../../src/bench/bench.js';
import type { Day, DayEvent } from '../../src/scenario/day.js';
import { hashTrace } from '../../src/trace/hash.js';
import type { TraceEvent } from '../../src/trace/kinds.js';
import { arbitraryDay } from '../days/arbitrary-day.js';
import { PATIENCE_MS, PATIENT } from '../days/patience.js';

vi.setConfig({ testTimeout: PATIENCE_MS });

const HOUR_MS = 3_600_000;
type Run = DayEvent & { readonly do: 'run' };

/** Without keys, for the sake of speed: what is counted and charged does not hang on them. */
function ran(day: Day): { readonly events: readonly TraceEvent[]; readonly outcome: Outcome } {
  const bench = Bench.open(day, { keys: false });
  return { outcome: bench.run(), events: bench.events };
}

/** Whether a run of the day truly happened, from its beginning to its end. */
function happened(events: readonly TraceEvent[]): (event: DayEvent) => event is Run {
  const starts = new Set<string>();
  const stops = new Set<string>();
  for (const event of events) {
    if (event.kind === 'hand.start') starts.add(`${event.at} ${event.tool} ${event.by}`);
    if (event.kind === 'hand.stop') stops.add(`${event.at} ${event.tool} ${event.by}`);
  }
  return (event): event is Run => {
    if (event.do !== 'run') return false;
    const { atMs, forMs, tool, by } = event;
    return starts.has(`${atMs} ${tool} ${by}`) && stops.has(`${atMs + forMs} ${tool} ${by}`);
  };
}

/** Each share of 0..1 in turn, over and over. */
function cycle(shares: readonly number[]): () => number {
  let next = 0;
  return () => shares[next++ % shares.length]!;
}

const SHARES = fc.array(fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true }), { minLength: 1, maxLength: 20 });

describe('splitting a burst', () => {
  /** Every second run that happened, in two that stand back to back. */
  function split(day: Day, events: readonly TraceEvent[], share: () => number): Day {
    const isRun = happened(events);
    const halves = day.events.flatMap((event): readonly DayEvent[] => {
      if (!isRun(event) || event.forMs < 2 || share() < 0.3) return [event];
      const firstMs = 1 + Math.floor(share() * (event.forMs - 1));
      return [
        { ...event, forMs: firstMs },
        { ...event, atMs: event.atMs + firstMs, forMs: event.forMs - firstMs },
      ];
    });
    return { ...day, events: halves.sort((a, b) => a.atMs - b.atMs) };
  }

  const unhandled = (events: readonly TraceEvent[]) =>
    hashTrace(events.filter(({ kind }) => kind !== 'hand.start' && kind !== 'hand.stop')).outward;

  it('changes nothing but who starts and stops', () => {
    let bursts = 0;
    const check = (day: Day, shares: readonly number[]) => {
      const [whole, parts] = [ran(day), ran(split(day, ran(day).events, cycle(shares)))];
      expect(parts.outcome).toEqual(whole.outcome);
      expect(unhandled(parts.events)).toBe(unhandled(whole.events));
      bursts += parts.events.filter(({ kind }) => kind === 'hand.start').length;
      bursts -= whole.events.filter(({ kind }) => kind === 'hand.start').length;
    };
    fc.assert(fc.property(arbitraryDay({ untilMs: 2 * HOUR_MS, runMs: [300, 120_000] }), SHARES, check), {
      numRuns: 20,
      seed: 1,
    });
    expect(bursts).toBeGreaterThan(100);
  });
});

describe('the order of tools and of workers', () => {
  it('changes nothing', () => {
    const check = (day: Day, shares: readonly number[]) => {
      const share = cycle(shares);
      const shuffled = <T>(list: readonly T[]) => {
        const drawn = list.map((one) => [share(), one] as const);
        return drawn.sort(([a], [b]) => a - b).map(([, one]) => one);
      };
      const other = { ...day, tools: shuffled(day.tools), workers: shuffled(day.workers) };
      expect(ran(other).outcome).toEqual(ran(day).outcome);
    };
    const shares = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 10, maxLength: 10 });
    fc.assert(fc.property(arbitraryDay({ untilMs: 2 * HOUR_MS, runMs: [300, 120_000] }), shares, check), {
      numRuns: 20,
      seed: 2,
    });
  });
});

describe('points are monotonic:', () => {
  /** Dose of each worker over all shifts, in u. */
  function doses({ shifts }: Outcome): Readonly<Record<string, number>> {
    const sum = (all: Outcome['shifts'][string]) => all.reduce((total, { dose }) => total + dose, 0);
    return Object.fromEntries(Object.entries(shifts).map(([worker, all]) => [worker, sum(all)]));
  }

  it('less work never makes more of them, burst by burst and second by second', () => {
    let less = 0;
    const check = (given: Day, shares: readonly number[]) => {
      // Only what truly happened: a burst left out may else make room for another.
      const isRun = happened(ran(given).events);
      const day = { ...given, events: given.events.filter((event) => event.do !== 'run' || isRun(event)) };
      const share = cycle(shares);
      const shorter = day.events.flatMap((event): readonly DayEvent[] => {
        const kept = 2 * share();
        if (event.do !== 'run' || kept >= 1) return [event];
        return kept < 0.3 ? [] : [{ ...event, forMs: Math.max(1, Math.floor(event.forMs * kept)) }];
      });
      const [more, fewer] = [doses(ran(day).outcome), doses(ran({ ...day, events: shorter }).outcome)];
      for (const { name } of day.workers) {
        expect(fewer[name]!).toBeLessThanOrEqual(more[name]!);
        if (fewer[name]! < more[name]!) less += 1;
      }
    };
    const day = arbitraryDay({ untilMs: 2 * HOUR_MS, runMs: [300, 120_000], changes: false });
    fc.assert(fc.property(day, SHARES, check), { ...PATIENT, numRuns: 30, seed: 3 });
    expect(less).toBeGreaterThan(20);
  });

  it('within a shift they never fall, on the display or in the ledger', () => {
    const check = (day: Day) => {
      const last = new Map<string, number>();
      const rises = (name: string, value: number) => {
        expect(value).toBeGreaterThanOrEqual(last.get(name) ?? 0);
        last.set(name, value);
      };
      const shifts = new Map<string, number>();
      for (const event of ran(day).events) {
        if (event.kind === 'inner.shift') shifts.set(event.by, event.shift);
        if (event.kind === 'inner.ledger') rises(`${event.by} ${event.shift} total`, event.total);
        if (event.kind === 'inner.ledger') rises(`${event.by} ${event.counter} ${event.session}`, event.dose);
        if (event.kind !== 'shown.display' || !['points', 'closed'].includes(event.screen) || event.value < 0) continue;
        rises(`${event.by} ${shifts.get(event.by)} shown`, event.value);
      }
    };
    const day = arbitraryDay({ rough: true, untilMs: 2 * HOUR_MS, runMs: [300, 120_000] });
    fc.assert(fc.property(day, check), { ...PATIENT, numRuns: 20, seed: 4 });
  });
});
