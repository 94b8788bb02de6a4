// Judges a trace: what its scenario expects of it, and what must hold in every run.
import type { Expectation } from '../scenario/expectation.js';
import type { TraceEvent } from '../trace/kinds.js';
import { eventsAround } from './around.js';
import { TraceIndex } from './expectations/trace-index.js';
import { weigh } from './expectations/weigh.js';
import { Invariants } from './invariants/watcher.js';
import type { Breach, BreachVerdict, JudgeResult } from './verdict.js';

/** Throws where the trace does not begin with hand.day. */
export function judge(events: readonly TraceEvent[], expectations: readonly Expectation[]): JudgeResult {
  const index = new TraceIndex(events);
  const verdicts = expectations.map((expectation) => weigh(index, expectation));
  const invariants = new Invariants();
  for (const event of events) invariants.see(event);
  const breaches = invariants.end(index.endMs).map((breach) => withEvents(events, breach));
  return { held: breaches.length === 0 && verdicts.every((verdict) => verdict.held), verdicts, breaches };
}

/** A breach with the events around it. */
export function withEvents(events: readonly TraceEvent[], breach: Breach): BreachVerdict {
  const event = events[breach.n - 1];
  return { ...breach, around: eventsAround(events, breach.atMs, event === undefined ? [] : [event.by], event) };
}
