// Follows `cause` back from an event to the root of it all.
import type { TraceEvent } from './kinds.js';

/** A longer chain is cut here: nobody reads further back. */
export const MAX_CAUSES = 1000;

/**
 * The events that led to event n, the nearest first, the root last; empty where nothing caused it. Throws where the trace
 * has no event n, or names a cause that does not lie before its effect.
 */
export function causesOf(events: readonly TraceEvent[], n: number): readonly TraceEvent[] {
  const chain: TraceEvent[] = [];
  let effect = eventAt(events, n);
  while (effect.cause !== 0 && chain.length < MAX_CAUSES) {
    if (effect.cause >= effect.n)
      throw new Error(`event ${effect.n} names a later event as its cause: ${effect.cause}`);
    effect = eventAt(events, effect.cause);
    chain.push(effect);
  }
  return chain;
}

/** The event of that number. Throws where the trace has none. */
export function eventAt(events: readonly TraceEvent[], n: number): TraceEvent {
  const event = events[n - 1];
  if (event === undefined || event.n !== n) throw new Error(`the trace has no event ${n}`);
  return event;
}
