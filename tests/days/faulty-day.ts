// Days with all that can go wrong in them, mixed into arbitrary days: power, cells, clocks, pages, bit errors, attackers, sensors.
// A mended one ends with some minutes in which nothing is wrong any more: cells are full, everyone is there, the air is clear.
import fc from 'fast-check';
import type { Day, DayEvent } from '../../src/scenario/day.js';
import { arbitraryDay, type DayOptions } from './arbitrary-day.js';
import { airErrors, attack, type Cast, cell, clock, cut, exchange, flashPage, type Times } from './arbitrary-events.js';

const HOUR_MS = 3_600_000;
/** From when on nothing new goes wrong in a mended day, before its end: what is wrong by then ends in the first part of it. */
const MENDED_MS = 900_000;
const QUIET_MS = 300_000;

export interface FaultyOptions extends DayOptions {
  /** Default true. */
  readonly mended?: boolean;
}

export function faultyDay(options: FaultyOptions = {}): fc.Arbitrary<Day> {
  const { mended = true, untilMs = 8 * HOUR_MS } = options;
  return arbitraryDay({ ...options, untilMs }).chain((day) => {
    const cast: Cast = { tools: day.tools.length, workers: day.workers.length };
    const lastMs = mended ? untilMs - MENDED_MS : untilMs - 1;
    return faults(cast, { gridMs: 1, workFromMs: 0, lastMs }).map((wrong) => {
      const events = [...day.events, ...wrong];
      const ended = mended ? [...events.map((event) => endedBy(event, untilMs - QUIET_MS)), ...mends(day)] : events;
      return { ...day, events: ended.sort((a, b) => a.atMs - b.atMs) };
    });
  });
}

function faults(cast: Cast, times: Times): fc.Arbitrary<readonly DayEvent[]> {
  const some = (event: fc.Arbitrary<DayEvent>, most: number) => fc.array(event, { maxLength: most, size: 'max' });
  return fc
    .tuple(
      some(cut(cast, times), 30),
      some(cell(cast, times), 3),
      some(exchange(cast, times), 4),
      some(clock(cast, times), 6),
      some(flashPage(cast, times), 8),
      some(attack(cast, times), 6),
      some(airErrors(cast, times), 3),
    )
    .map((lists) => lists.flat());
}

/** Nothing that is wrong lasts longer. */
function endedBy(event: DayEvent, lastMs: number): DayEvent {
  const restMs = Math.max(1, lastMs - event.atMs);
  switch (event.do) {
    case 'air':
    case 'leave':
    case 'clock':
      return { ...event, forMs: Math.min(event.forMs ?? restMs, restMs) };
    case 'attack':
    case 'sensor':
    case 'cut':
    case 'exchange':
    case 'run':
      return { ...event, forMs: Math.min(event.forMs, restMs) };
    default:
      return event;
  }
}

/** Every device gets a full cell, and everyone comes back. */
function mends({ tools, workers, untilMs }: Day): readonly DayEvent[] {
  const names = [...tools, ...workers].map(({ name }) => name);
  const atMs = untilMs - MENDED_MS / 2;
  return [
    ...names.map((device, index) => ({ atMs: atMs + index, do: 'exchange', device, forMs: 1000 }) as const),
    { atMs: atMs + HOUR_MS / 600, do: 'return', who: names },
  ];
}
