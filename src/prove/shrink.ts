// Makes a day that fails as short as it can be and still fails: first fast-check shrinks what it drew, then whatever event,
// tool or worker can be spared is left out, one at a time, until none can.
import fc from 'fast-check';
import type { Day, DayEvent } from '../scenario/day.js';

/** Days tried before the shortest so far is taken. */
const MAX_TRIES = 3000;

export type Fails = (day: Day) => boolean;

/** The day that a seed draws. The same seed draws the same day. */
export function dayOfSeed(days: fc.Arbitrary<Day>, seed: number): Day {
  const [day] = fc.sample(days, { seed, numRuns: 1 });
  if (day === undefined) throw new Error(`no day is drawn from the seed ${seed}`);
  return day;
}

/** The shortest day found that fails as the day of this seed does. Throws where that day does not fail. */
export function shrinkSeed(days: fc.Arbitrary<Day>, seed: number, fails: Fails): Day {
  let tries = 0;
  const drawn = fc.check(
    fc.property(days, (day) => ++tries > MAX_TRIES || !fails(day)),
    { seed, numRuns: 1 },
  );
  const failed = drawn.counterexample?.[0];
  if (failed === undefined) throw new Error(`the day of the seed ${seed} does not fail`);
  return shorten(failed, fails);
}

/** Leaves out whatever is not needed for the day to fail. */
export function shorten(day: Day, fails: Fails): Day {
  let shortest = day;
  let tries = 0;
  for (let again = true; again && tries < MAX_TRIES; ) {
    again = false;
    for (const shorter of shorterDays(shortest)) {
      tries += 1;
      if (!fails(shorter)) continue;
      shortest = shorter;
      again = true;
      break;
    }
  }
  return shortest;
}

/** The day without one of its events, halves of them first; then without a tool or a worker that no event names. */
function* shorterDays(day: Day): Generator<Day> {
  const { events, tools, workers } = day;
  for (let size = Math.ceil(events.length / 2); size >= 1; size = size > 1 ? Math.ceil(size / 2) : 0) {
    for (let at = 0; at < events.length; at += size) {
      yield { ...day, events: [...events.slice(0, at), ...events.slice(at + size)] };
    }
  }
  const named = new Set(events.flatMap(namesIn));
  for (const { name } of tools) {
    if (!named.has(name) && tools.length > 1) yield { ...day, tools: tools.filter((tool) => tool.name !== name) };
  }
  for (const { name } of workers) {
    if (!named.has(name) && workers.length > 1) yield { ...day, workers: workers.filter((one) => one.name !== name) };
  }
  const lastMs = Math.max(0, ...events.map(({ atMs }) => atMs));
  for (const untilMs of [lastMs + 600_000, lastMs + 3_600_000]) if (untilMs < day.untilMs) yield { ...day, untilMs };
}

function namesIn(event: DayEvent): readonly string[] {
  return Object.values(event).flatMap((value) =>
    typeof value === 'string' ? [value] : Array.isArray(value) ? value : [],
  );
}
