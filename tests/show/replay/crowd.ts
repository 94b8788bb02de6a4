// Days with any number of workers and tools, for frames of every size.
import { type Reel, reelOf } from '../../../src/show/replay/reel.js';
import { HOUR, MadeDay, MINUTE } from '../../trace/made-day.js';

const WORKERS = ['Edda', 'Bram', 'Ilse', 'Bela', 'Jost', 'Wanda'];
const TOOLS = ['breaker', 'grinder', 'drill', 'saw', 'hammer', 'chaser', 'plane', 'needler'];
const LONG = ' of the upper gate, second crew, night watch';

export interface Crowd {
  readonly workers: number;
  readonly tools: number;
  readonly long?: boolean;
  readonly notes?: boolean;
}

/** Every tool is paired and worked for an hour, the first for long enough to bring its worker past the ELV. */
export function crowd({ workers, tools, long = false, notes = false }: Crowd): Reel {
  const people = WORKERS.slice(0, workers).map((name) => (long ? name + LONG : name));
  const things = TOOLS.slice(0, tools).map((name) => (long ? name + LONG : name));
  const day = new MadeDay(Object.fromEntries(things.map((name, index) => [name, index === 1 ? 0 : 150])), people);
  things.forEach((tool, index) => {
    const owner = people[index % people.length] ?? '';
    day.pair(MINUTE, tool, owner).work(10 * MINUTE + index * 7000, tool, owner, HOUR);
  });
  day.leave(40 * MINUTE, people[0] ?? '', 20 * MINUTE).tap(HOUR, people[0] ?? '');
  const title = long ? `A day${LONG}${LONG}${LONG}` : 'A day at the lock';
  const say = `This session opened with Edda's wearable${long ? LONG.repeat(6) : ''}.`;
  return reelOf({
    title,
    events: day.events(),
    notes: notes ? [{ atMs: 30 * MINUTE, ask: 'Why has Bram no points?', say }] : [],
  });
}
