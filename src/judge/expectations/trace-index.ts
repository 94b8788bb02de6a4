// A trace sorted once by the kinds of its events, so that each expectation reads only those that it is about.
import type { EventOf, Kind, TraceEvent } from '../../trace/kinds.js';

/** An event of one of these kinds. */
export type EventIn<K extends Kind> = { [P in K]: EventOf<P> }[K];

export class TraceIndex {
  /** Start of the day in ms after midnight, and its length in ms. */
  readonly fromMs: number;
  readonly endMs: number;
  private readonly byKind = new Map<Kind, TraceEvent[]>();

  /** Throws where the events do not begin with hand.day, as every trace does. */
  constructor(readonly events: readonly TraceEvent[]) {
    const day = events[0];
    if (day?.kind !== 'hand.day') throw new Error('a trace begins with hand.day');
    this.fromMs = day.fromMs;
    this.endMs = day.untilMs;
    for (const event of events) {
      const known = this.byKind.get(event.kind);
      if (known === undefined) this.byKind.set(event.kind, [event]);
      else known.push(event);
    }
  }

  /** All events of these kinds, in order. */
  of<K extends Kind>(...kinds: readonly K[]): readonly EventIn<K>[] {
    const found = kinds.map((kind) => (this.byKind.get(kind) ?? []) as readonly TraceEvent[] as readonly EventIn<K>[]);
    return found.length === 1 ? (found[0] ?? []) : found.flat().sort((a, b) => a.n - b.n);
  }
}
