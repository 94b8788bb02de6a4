// A wearable that started again marked a counter as stale for an older session of which it still waited, although the newest one was
// sealed and had nothing more to say (TAL-6); and where both were open it marked the counter twice.
import { expect, test } from 'vitest';
import { Bench } from '../../src/bench/bench.js';
import { Invariants } from '../../src/judge/invariants/watcher.js';
import type { DayEvent } from '../../src/scenario/day.js';
import { dayOf, MINUTE, pair, SECOND, tool, worker } from '../rig/day.js';

/** All that the wearable writes in a handover to itself has fewer bytes than that. */
const BYTES = 160;

test.each(Array.from({ length: BYTES }, (_, bytes) => bytes))('power fails %i bytes into a handover', (afterBytes) => {
  const cut = (atMs: number, when: 'write' | 'now', bytes: number): DayEvent => {
    return { atMs, do: 'cut', device: 'Edda', when, afterBytes: bytes, forMs: SECOND };
  };
  const events: readonly DayEvent[] = [
    pair(SECOND, 'breaker', 'Edda'),
    pair(MINUTE, 'breaker', 'Edda'),
    cut(MINUTE + 2 * SECOND, 'write', afterBytes),
    // Where the first session was sealed unheard, its wearable waits for it for ever.
    { atMs: MINUTE + 5 * SECOND, do: 'readout', device: 'breaker' },
    { atMs: 3 * MINUTE, do: 'close', worker: 'Edda' },
    cut(5 * MINUTE, 'now', 0),
  ];
  const day = dayOf([tool('breaker', 120)], [worker('Edda')], events, { untilMs: 6 * MINUTE });
  const invariants = new Invariants();
  Bench.open(day, { keys: false, trace: 'watched', watchers: [(event) => invariants.see(event)] }).run();
  expect(invariants.end(day.untilMs).map(({ text }) => text)).toEqual([]);
});
