// Where tools and workers are: on the site, or away with those with whom they left.
import type { EventOf } from './kinds.js';

/** The list after somebody has left or come back. */
export function moved<T extends { readonly name: string; readonly place: number }>(
  list: readonly T[],
  event: EventOf<'hand.leave'> | EventOf<'hand.return'>,
): readonly T[] {
  const place = event.kind === 'hand.leave' ? event.n : 0;
  return list.map((one) => (event.who.includes(one.name) ? { ...one, place } : one));
}
