// Short days written by hand, for tests that want one thing to happen.
import { Bench } from '../../src/bench/bench.js';
import type { Day, DayEvent } from '../../src/scenario/day.js';
import type { EventOf, Kind } from '../../src/trace/kinds.js';

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

/** Runs a day and gives its events of one kind. */
export function eventsOf<K extends Kind>(day: Day, kind: K): readonly EventOf<K>[] {
  const bench = Bench.open(day);
  bench.run();
  return bench.events.filter((event) => event.kind === kind) as unknown as readonly EventOf<K>[];
}

/** What came to nothing: "ms who verb: reason". */
export function nothings(day: Day): readonly string[] {
  return eventsOf(day, 'hand.nothing').map(({ at, by, verb, reason }) => `${at} ${by} ${verb}: ${reason}`);
}
