// Records a run: numbers its events, keeps them, and hands each to whoever watches as it happens.
import type { EventOf, Fields, Kind, TraceEvent } from './kinds.js';

/** A day that makes more events than this feeds on itself (an 8 h day with four tools makes about 40 000). */
const MAX_EVENTS = 5_000_000;

export type Watcher = (event: TraceEvent) => void;

export class Recorder {
  /** Events so far, in order; events[i].n === i + 1. */
  readonly events: TraceEvent[];

  constructor(
    private readonly watchers: readonly Watcher[] = [],
    events: readonly TraceEvent[] = [],
  ) {
    this.events = [...events];
  }

  /** Appends an event and returns its n. `fields` must not be changed afterwards. */
  add<K extends Kind>(at: number, by: string, kind: K, cause: number, fields: Fields<K>): number {
    const n = this.events.length + 1;
    if (n > MAX_EVENTS) throw new Error(`more than ${MAX_EVENTS} events: the day feeds on itself`);
    const event = { at, by, cause, kind, n, ...fields } as EventOf<K> as TraceEvent;
    this.events.push(event);
    for (const watcher of this.watchers) watcher(event);
    return n;
  }
}
