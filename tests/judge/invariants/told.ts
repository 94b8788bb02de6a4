// What one invariant says of a hand-made trace.
import type { Invariant } from '../../../src/judge/invariants/invariant.js';
import { Invariants } from '../../../src/judge/invariants/watcher.js';
import type { DayTrace } from '../day.js';

export function told(invariant: Invariant, day: DayTrace, endMs = 36_000_000): readonly string[] {
  const invariants = new Invariants([invariant]);
  for (const event of day.events) invariants.see(event);
  return invariants.end(endMs).map((breach) => breach.text);
}
