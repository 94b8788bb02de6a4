// Random days with faults, by seed, under all invariants: which faults came about on them, and for the first day on which
// something broke the shortest one that breaks the same.
import { expect, test } from 'vitest';
import { DAY_SORTS, type DaySort } from '../../src/prove/days/day.js';
import { brokenOn, shortestFailure } from '../../src/prove/failure.js';
import { dayOfSeed } from '../../src/prove/shrink.js';
import type { TraceEvent } from '../../src/trace/kinds.js';

/** Days of each sort in one of four test files, and how many of the first sort come again with keys. */
const COUNTS: readonly (readonly [sort: DaySort, count: number])[] = [
  ['faulty', 510],
  ['worn', 80],
  ['middle', 40],
];
const WITH_KEYS = 15;
/** Days of a quarter on which each kind of fault must have come about: a hundred of all. */
const LEAST_DAYS = 25;
/** Five moments of a cut, five attacks, four faults of the air, and five others. */
const KINDS_OF_FAULT = 19;
/** More than any frame takes where the air is as usual. */
const LATE_MS = 100;

/** quarter: 1..4. */
export function holdQuarter(quarter: number): void {
  const seeds = (count: number) => Array.from({ length: count }, (_, index) => (quarter - 1) * count + index + 1);
  const faults = new Map<string, number>();

  test.each(COUNTS)(
    'all invariants hold on the %s days, %i of them',
    (sort, count) => {
      for (const seed of seeds(count)) {
        const seen = new Set<string>();
        hold(sort, seed, false, (event) => addFault(seen, event));
        for (const fault of seen) faults.set(fault, (faults.get(fault) ?? 0) + 1);
      }
    },
    400_000,
  );

  test('each kind of fault came about on many of them', () => {
    const told = [...faults].sort().map(([fault, count]) => `${fault} ${count}`);
    process.stdout.write(`quarter ${quarter} of the faulty days; on so many of them: ${told.join(', ')}\n`);
    for (const [fault, count] of faults) expect(count, fault).toBeGreaterThanOrEqual(LEAST_DAYS);
    expect(faults.size).toBe(KINDS_OF_FAULT);
  });

  test('and with keys', () => {
    for (const seed of seeds(WITH_KEYS)) hold('faulty', seed, true, () => {});
  }, 120_000);
}

function hold(sort: DaySort, seed: number, keys: boolean, see: (event: TraceEvent) => void): void {
  const days = DAY_SORTS[sort];
  if (brokenOn(dayOfSeed(days, seed), { keys, watchers: [see] }) === null) return;
  const { what, scenario } = shortestFailure(days, seed, { keys });
  const again = `npm run days -- ${sort} ${seed} 1`;
  expect.fail(`${sort} day ${seed}: ${what}\n${again} writes this scenario, which shows it again:\n${scenario}`);
}

/** The fault that an event shows to have come about. What is only planned, or meets nothing, is none. */
function addFault(seen: Set<string>, event: TraceEvent): void {
  switch (event.kind) {
    case 'fault.cut':
      seen.add(`cut ${event.during}`);
      break;
    case 'air.injected':
      seen.add(`attack ${event.how}`);
      break;
    case 'air.lost':
      if (event.reason === 'loss') seen.add('air loss');
      break;
    case 'fault.air':
      if (event.duplicateNum > 0) seen.add('air duplicate');
      if (event.errorNum > 0) seen.add('air errors');
      if (event.delayToMs > LATE_MS) seen.add('air delay');
      break;
    case 'fault.cell':
    case 'fault.clock':
    case 'fault.page':
    case 'fault.sensor':
    case 'hand.leave':
      seen.add(event.kind);
      break;
  }
}
