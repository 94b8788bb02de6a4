// What an invariant is: something that must hold in every run, watched event by event while a run goes on. Campaigns watch
// thousands of days of about 40 000 events each, so a handler takes constant time and makes nothing unless it is broken.
import type { EventOf, Kind, TraceEvent } from '../../trace/kinds.js';
import type { Facts } from './facts.js';

/** For each kind of event that it looks at: what is wrong with that event, in words, or undefined. */
export type Handlers = { readonly [K in Kind]?: (event: EventOf<K>) => string | undefined };

export interface Watch {
  readonly on: Handlers;
  /** What is wrong with an event of whatever kind, before those that look at its kind; asked of every event, so it must be quick. */
  onAny?(event: TraceEvent): string | undefined;
  /** At the end of the run: what is wrong by then. */
  wrongAtEnd?(endMs: number): readonly string[];
  /** At the end of the run: what was due and has not come ("5 u of …, counted at 07:40:00"). */
  waitingFor?(endMs: number): readonly string[];
}

export interface Invariant {
  /** A sentence that holds in every run. */
  readonly name: string;
  /** Identifiers of the requirements. */
  readonly guards: readonly string[];
  /** Begins to watch a run; facts are those of the same run. */
  watch(facts: Facts): Watch;
}
