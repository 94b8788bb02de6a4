// Records a run: numbers its events, keeps them if they are wanted later, and hands each to whoever watches as it happens.
import type { EventOf, Fields, Kind, TraceEvent } from './kinds.js';

/** A day that makes more events than this feeds on itself (an 8 h day with four tools makes about 40 000). */
const MAX_EVENTS = 5_000_000;

export type Watcher = (event: TraceEvent) => void;

export class Recorder {
  /** Events so far, in order; events[i].n === i + 1. Empty where none are kept. */
  readonly events: TraceEvent[];
  private count: number;

  /** keep false: events go to the watchers only. Given the events of another recorder, this one goes on behind them. */
  constructor(
    private readonly watchers: readonly Watcher[] = [],
    readonly keep = true,
    before: Recorder | null = null,
  ) {
    this.events = [...(before?.events ?? [])];
    this.count = before?.count ?? 0;
  }

  /** Appends an event and returns its n. `fields` must not be changed afterwards. */
  add<K extends Kind>(at: number, by: string, kind: K, cause: number, fields: Fields<K>): number {
    const n = ++this.count;
    if (n > MAX_EVENTS) throw new Error(`more than ${MAX_EVENTS} events: the day feeds on itself`);
    const event = { at, by, cause, kind, n, ...fields } as EventOf<K> as TraceEvent;
    if (this.keep) this.events.push(event);
    for (const watcher of this.watchers) watcher(event);
    return n;
  }
}
