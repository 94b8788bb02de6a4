// KEP-2: at most 10 000 erases of any page in ten years of 250 days of 8 h running and 500 stops; computed from days that the
// whole counter is run through, with what it writes at pairings, stops, and every five seconds of running.
import { expect, test } from 'vitest';
import { Bench } from '../../src/bench/bench.js';
import type { DayEvent } from '../../src/scenario/day.js';
import { dayOf, HOUR, pair, run, SECOND, tool, worker } from '../rig/day.js';

const TEN_YEARS_OF_DAYS = 2500;
const DAYS = 4;
const STOPS = 500;
const RUNNING_MS = (8 * HOUR) / STOPS;

test('ten years wear no page more than KEP-2 allows', () => {
  const events = Array.from({ length: DAYS }, (_, day) => dayAt(day * 24 * HOUR)).flat();
  const day = dayOf([tool('saw', 120)], [worker('Edda')], events, { untilMs: DAYS * 24 * HOUR });
  const bench = Bench.open(day, { keys: false, trace: 'none' });
  const outcome = bench.run();
  const erases = bench.flashErases('saw');
  const inTenYears = Math.max(...erases) * (TEN_YEARS_OF_DAYS / DAYS);
  const sum = outcome.shifts.Edda!.reduce((total, { dose }) => total + dose, 0);
  process.stdout.write(
    `erases of the counter's pages in ${DAYS} days: ${Math.min(...erases)} to ${Math.max(...erases)}; in ten years ${inTenYears}\n`,
  );
  // The days are what KEP-2 speaks of: 8 h of running, give or take a window at each end of a burst.
  expect(Math.abs(sum / (120 * 120) / DAYS - 8 * HOUR)).toBeLessThan(STOPS * 200);
  expect(Math.min(...erases)).toBeGreaterThan(1);
  expect(inTenYears).toBeLessThanOrEqual(10_000);
}, 60_000);

/** A pairing in the morning; a burst every minute or so; the wearer closes the shift. */
function dayAt(fromMs: number): readonly DayEvent[] {
  const bursts = Array.from({ length: STOPS }, (_, index) =>
    run(fromMs + 60 * SECOND + index * (RUNNING_MS + 20 * SECOND), 'saw', 'Edda', RUNNING_MS),
  );
  return [pair(fromMs + SECOND, 'saw', 'Edda'), ...bursts, { atMs: fromMs + 13 * HOUR, do: 'close', worker: 'Edda' }];
}
