// A session that ended while its tool ran left the counter's display without the mark of unclaimed dose until something else woke
// the counter, up to 5 s later (PAI-4: shown).
import { expect, test } from 'vitest';
import { Bench } from '../../src/bench/bench.js';
import type { DayEvent } from '../../src/scenario/day.js';
import { dayOf, MINUTE, pair, run, SECOND, tool, worker } from '../rig/day.js';

test('the first window that nobody claims is shown when it ends', () => {
  const closes: DayEvent = { atMs: MINUTE + 7 * SECOND, do: 'close', worker: 'Edda' };
  const events = [pair(SECOND, 'breaker', 'Edda'), run(MINUTE, 'breaker', 'Edda', MINUTE), closes];
  const bench = Bench.open(dayOf([tool('breaker', 120)], [worker('Edda')], events, { untilMs: 3 * MINUTE }));
  bench.run();
  const sealed = bench.events.find((event) => event.kind === 'inner.session' && event.what === 'sealed');
  const shown = bench.events.find((event) => event.kind === 'shown.display' && event.icons.includes('unclaimed'));
  if (sealed === undefined || shown === undefined) throw new Error('the session was not sealed, or nothing was shown');
  expect(shown.at - sealed.at).toBeGreaterThan(0);
  expect(shown.at - sealed.at).toBeLessThanOrEqual(100);
});
