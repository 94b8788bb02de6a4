// Random days with faults, by seed, under all invariants: what they held, which faults were in them, and for the first day on
// which something broke the shortest one that breaks the same.
import { expect, test } from 'vitest';
import { faultyDay } from '../../src/prove/days/day.js';
import { brokenOn, shortestFailure } from '../../src/prove/failure.js';
import { dayOfSeed } from '../../src/prove/shrink.js';
import type { DayEvent } from '../../src/scenario/day.js';

const days = faultyDay();

/** Days of one of four test files; those that are run with keys come again without. */
const QUARTER = 510;
const WITH_KEYS = 15;
/** Days of a quarter on which each kind of fault must have been: a hundred of all. */
const LEAST_DAYS = 25;

/** quarter: 1..4. */
export function holdQuarter(quarter: number): void {
  const from = (quarter - 1) * QUARTER + 1;

  test(`all invariants hold on the faulty days of the seeds ${from} to ${from + QUARTER - 1}`, () => {
    const faults = holdOn(from, QUARTER, false);
    const told = [...faults].sort().map(([fault, count]) => `${fault} ${count}`);
    process.stdout.write(`${QUARTER} faulty days; on so many of them: ${told.join(', ')}\n`);
    for (const [fault, count] of faults) expect(count, fault).toBeGreaterThanOrEqual(LEAST_DAYS);
    expect(faults.size).toBe(KINDS_OF_FAULT);
  }, 400_000);

  test('and with keys', () => {
    holdOn(from, WITH_KEYS, true);
  }, 120_000);
}

/** Three moments of a cut, five attacks, four faults of the air, and six others. */
const KINDS_OF_FAULT = 18;

/** Runs the days of the seeds from..from+count-1; returns on how many of them each fault was. */
function holdOn(from: number, count: number, keys: boolean): ReadonlyMap<string, number> {
  const faults = new Map<string, number>();
  for (let seed = from; seed < from + count; seed++) {
    const day = dayOfSeed(days, seed);
    if (brokenOn(day, { keys }) !== null) {
      const { what, scenario } = shortestFailure(days, seed, { keys });
      expect.fail(
        `seed ${seed}: ${what}\nnpm run days -- ${seed} 1 writes this scenario, which shows it again:\n${scenario}`,
      );
    }
    for (const fault of new Set(day.events.flatMap(faultsOf))) faults.set(fault, (faults.get(fault) ?? 0) + 1);
  }
  return faults;
}

/** The kinds of fault that an event orders. */
function faultsOf(event: DayEvent): readonly string[] {
  switch (event.do) {
    case 'cut':
      return [`cut ${event.when}`];
    case 'attack':
      return [`attack ${event.how}`];
    case 'air':
      return (['loss', 'duplicate', 'errors'] as const)
        .filter((what) => event[what].num > 0)
        .map((what) => `air ${what}`)
        .concat(event.delayMs[1] > 100 ? ['air delay'] : []);
    case 'sensor':
    case 'cell':
    case 'exchange':
    case 'clock':
    case 'flash':
    case 'leave':
      return [event.do];
    default:
      return [];
  }
}
