// Runs a day with all invariants watching. Whatever is broken is a fault: of the devices, of the bench, or of an invariant.
import { Bench, type BenchOptions } from '../bench/bench.js';
import { Invariants } from '../judge/invariants/watcher.js';
import type { Breach } from '../judge/verdict.js';
import type { Day } from '../scenario/day.js';
import type { Watcher } from '../trace/recorder.js';

/** What was broken, in order; nothing where all holds. Throws where the bench or a device does. */
export function tryDay(day: Day, options: BenchOptions = {}): readonly Breach[] {
  const invariants = new Invariants();
  const watchers: readonly Watcher[] = [...(options.watchers ?? []), (event) => invariants.see(event)];
  Bench.open(day, { ...options, trace: 'watched', watchers }).run();
  return invariants.end(day.untilMs);
}
