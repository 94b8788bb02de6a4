// Short days written by hand, for tests that want one thing to happen.
import { Bench, type BenchOptions } from '../../src/bench/bench.js';
import type { AirFault, Attack, CutMoment, Day, DayEvent } from '../../src/scenario/day.js';
import type { EventOf, Kind, TraceEvent } from '../../src/trace/kinds.js';

export const SECOND_MS = 1000;
export const MINUTE_MS = 60_000;

/** Edda and Bram with a breaker and a saw, both keyed to what they make: 12.0 and 4.0 m/s². */
export function smallDay(events: readonly DayEvent[], change: Partial<Day> = {}): Day {
  return {
    fromMs: 0,
    untilMs: 10 * MINUTE_MS,
    seed: 3,
    regime: 'eu-2002-44',
    tools: [
      { name: 'breaker', hand: 'percussive', magnitudeTenths: 120, keyedTenths: 120 },
      { name: 'saw', hand: 'rotary', magnitudeTenths: 40, keyedTenths: 40 },
    ],
    workers: [
      { name: 'Edda', noticePoints: 80, sitePoints: null },
      { name: 'Bram', noticePoints: 80, sitePoints: null },
    ],
    events: [...events].sort((a, b) => a.atMs - b.atMs),
    ...change,
  };
}

export function run(atMs: number, tool: string, by: string, forMs: number, held = true): DayEvent {
  return { atMs, do: 'run', tool, by, forMs, held };
}

export function pair(atMs: number, tool: string, worker: string): DayEvent {
  return { atMs, do: 'pair', tool, with: worker };
}

/** Air in which nothing happens but what is said. */
export function air(atMs: number, tool: string, worker: string, change: Partial<AirFault & { forMs: number | null }>) {
  const never = { num: 0, den: 1 };
  const clear = { loss: never, duplicate: never, errors: never, delayMs: [2, 12] } as const;
  return { atMs, do: 'air', tool, worker, forMs: null, ...clear, ...change } as const;
}

/** afterBytes counts within a write only. */
export function cut(atMs: number, device: string, when: CutMoment, forMs: number, afterBytes = 0): DayEvent {
  return { atMs, do: 'cut', device, when, afterBytes, forMs };
}

export function attack(atMs: number, how: Attack, tool: string, worker: string, forMs: number, everyMs = 0): DayEvent {
  return { atMs, do: 'attack', how, tool, worker, everyMs, forMs };
}

/** Runs a day and gives its trace. */
export function traceOf(day: Day, options: BenchOptions = {}): readonly TraceEvent[] {
  const bench = Bench.open(day, options);
  bench.run();
  return bench.events;
}

/** Runs a day and gives its events of one kind. */
export function eventsOf<K extends Kind>(day: Day, kind: K): readonly EventOf<K>[] {
  return ofKind(traceOf(day), kind);
}

/** The events of one kind; by: a tool's or a worker's name, anybody's where it is left out. */
export function ofKind<K extends Kind>(events: readonly TraceEvent[], kind: K, by?: string): readonly EventOf<K>[] {
  const found = events.filter((event) => event.kind === kind && (by === undefined || event.by === by));
  return found as unknown as readonly EventOf<K>[];
}

/** What came to nothing: "ms who verb: reason". */
export function nothings(day: Day): readonly string[] {
  return eventsOf(day, 'hand.nothing').map(({ at, by, verb, reason }) => `${at} ${by} ${verb}: ${reason}`);
}
