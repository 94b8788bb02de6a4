// Power failed after a session was kept as sealed and before it was dropped as the open one. The sealed one was delivered and let
// go; at the next start what was left of the open one opened it again, and took in what was nobody's (PAI-3, PAI-5).
import { expect, test } from 'vitest';
import { Bench } from '../../src/bench/bench.js';
import { Invariants } from '../../src/judge/invariants/watcher.js';
import type { DayEvent } from '../../src/scenario/day.js';
import { dayOf, MINUTE, pair, SECOND, tool, worker } from '../rig/day.js';

/** All that a handover writes has fewer bytes than that. */
const BYTES = 260;

test.each(Array.from({ length: BYTES }, (_, bytes) => bytes))('power fails %i bytes into a handover', (afterBytes) => {
  const cut = (atMs: number, when: 'write' | 'now', bytes: number): DayEvent => {
    return { atMs, do: 'cut', device: 'breaker', when, afterBytes: bytes, forMs: 2 * SECOND };
  };
  const events = [
    pair(SECOND, 'breaker', 'Edda'),
    pair(MINUTE, 'breaker', 'Bram'),
    cut(MINUTE + 2 * SECOND, 'write', afterBytes),
    cut(3 * MINUTE, 'now', 0),
  ];
  const day = dayOf([tool('breaker', 120)], [worker('Edda'), worker('Bram')], events, { untilMs: 4 * MINUTE });
  const invariants = new Invariants();
  Bench.open(day, { keys: false, trace: 'watched', watchers: [(event) => invariants.see(event)] }).run();
  expect(invariants.end(day.untilMs).map(({ text }) => text)).toEqual([]);
});
