// The random days that canaries are looked for on.
import fc from 'fast-check';
import { faultyDay } from '../../src/prove/days/day.js';
import { TOOLS, WORKERS } from '../../src/prove/days/events.js';
import type { Day, DayEvent } from '../../src/scenario/day.js';
import type { DayKind } from './canary.js';
import { richDay } from './rich.js';

const HOUR_MS = 3_600_000;
/** Long enough for what takes six idle hours (PAI-6, WEA-3). */
const LONG_MS = 14 * HOUR_MS;
/** Work so dense that pages of the journal are filled and erased. */
const WORN_MS = 10 * HOUR_MS;
const STRETCH = 20;
/** So much at once that what is rare meets what is rare. */
const DENSE_MS = 2 * HOUR_MS;
const OVERLAID = 4;
/** As random days have it between two runs of a tool. */
const LEAST_GAP_MS = 600;
const NAMES: ReadonlySet<string> = new Set([...TOOLS, ...WORKERS]);

export function daysOf(kind: DayKind): fc.Arbitrary<Day> {
  switch (kind) {
    case 'usual':
      return faultyDay();
    case 'long':
      return faultyDay({ untilMs: LONG_MS });
    case 'worn':
      return faultyDay({ untilMs: WORN_MS }).map(stretched);
    case 'rich':
      return richDay();
    case 'dense':
      return fc.array(faultyDay({ untilMs: DENSE_MS }), { minLength: OVERLAID, maxLength: OVERLAID }).map(overlaid);
  }
}

/** The first day, in which all happens that happens in any of them to its tools and workers. */
function overlaid(days: readonly Day[]): Day {
  const [first] = days;
  const names = new Set([...first!.tools, ...first!.workers].map(({ name }) => name));
  const events = days.flatMap((day) => day.events.filter((event) => namesIn(event).every((name) => names.has(name))));
  return { ...first!, events: events.sort((a, b) => a.atMs - b.atMs) };
}

/** Tools and workers that an event is about; the other texts in it are names of nobody. */
function namesIn(event: DayEvent): readonly string[] {
  const { do: _, ...rest } = event;
  const texts = Object.values(rest)
    .flat()
    .filter((value) => typeof value === 'string');
  return texts.filter((text) => NAMES.has(text));
}

type Run = DayEvent & { readonly do: 'run' };

/** Each run lasts many times as long, until shortly before the tool is taken up again, or the quiet end of the day begins. */
function stretched(day: Day): Day {
  const lastMs = day.untilMs - HOUR_MS / 10;
  const next = new Map<string, number>();
  const events = [...day.events].reverse().map((event): DayEvent => {
    if (event.do !== 'run') return event;
    const endMs = Math.min(lastMs, (next.get(event.tool) ?? Infinity) - LEAST_GAP_MS);
    next.set(event.tool, event.atMs);
    const longer: Run = { ...event, forMs: Math.max(1, Math.min(event.forMs * STRETCH, endMs - event.atMs)) };
    return longer;
  });
  return { ...day, events: events.reverse() };
}
