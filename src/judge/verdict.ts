// What a judge says of a trace: one verdict an expectation, one breach a broken invariant, with the events around it.
import type { Place } from '../scenario/place.js';
import type { TraceEvent } from '../trace/kinds.js';

export interface Verdict {
  readonly held: boolean;
  /** Where the expectation stands, and how it is written there. */
  readonly place: Place;
  readonly text: string;
  /** What was expected and what was seen, in words. */
  readonly expected: string;
  readonly seen: string;
  /** The moment that decided it, ms since the start. */
  readonly atMs: number;
  /** Since when it was as seen by then; of what was so from the start the first of the events around it. */
  readonly sinceMs: number;
  /** A few events about that moment which concern the devices of the expectation, in order. */
  readonly around: readonly TraceEvent[];
}

/** wrong: something happened that never may. stuck: something did not happen that was due. */
export type BreachSort = 'wrong' | 'stuck';

export interface Breach {
  /** Name of the invariant. */
  readonly invariant: string;
  /** Identifiers of the requirements that it guards. */
  readonly guards: readonly string[];
  readonly sort: BreachSort;
  /** "wrong: …" or "stuck: waiting for …" */
  readonly text: string;
  /** The event at which it showed; the last of the trace where it showed at the end. */
  readonly n: number;
  readonly atMs: number;
}

export interface BreachVerdict extends Breach {
  readonly around: readonly TraceEvent[];
}

export interface JudgeResult {
  /** Every expectation holds and no invariant is broken. */
  readonly held: boolean;
  /** In the order of the expectations. */
  readonly verdicts: readonly Verdict[];
  /** In the order in which they showed. */
  readonly breaches: readonly BreachVerdict[];
}
