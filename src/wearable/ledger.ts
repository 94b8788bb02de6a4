// The ledger (WEA-1, TAL-3): the largest values known of every counter's every session.
import type { Tally } from '../link/messages.js';
import type { LedgerEntry } from '../port/inner.js';
import { isOver } from './shifts.js';
import type { Link, WearableState } from './state.js';

/** PAI-5 */
const MAX_COUNTERS = 32;
/** Sessions kept in all. Sealed ones of closed shifts make room; where none can, a pairing is refused. */
const MAX_LINKS = 256;

/**
 * Takes a tally into an entry: each sum becomes the larger of the two, so that lost, late, doubled and reordered tallies
 * change nothing in the end. True where the entry grew.
 */
export function merge(entry: LedgerEntry, tally: Pick<Tally, 'dose' | 'triggerWindows' | 'unratedWindows'>): boolean {
  const grew =
    tally.dose > entry.dose ||
    tally.triggerWindows > entry.triggerWindows ||
    tally.unratedWindows > entry.unratedWindows;
  entry.dose = Math.max(entry.dose, tally.dose);
  entry.triggerWindows = Math.max(entry.triggerWindows, tally.triggerWindows);
  entry.unratedWindows = Math.max(entry.unratedWindows, tally.unratedWindows);
  return grew;
}

/** Whether a session of this counter could be taken in. */
export function hasRoom(state: WearableState, counter: number): boolean {
  const needed = state.links.filter((link) => !mayForget(state, link));
  const counters = new Set(needed.map((link) => link.counter)).add(counter);
  return needed.length < MAX_LINKS && counters.size <= MAX_COUNTERS;
}

/**
 * Takes a session in; call it only where hasRoom() says yes. What may be forgotten is kept as long as there is a place for
 * it: its counter may not have heard the last acknowledgement yet, and would tell it for ever to a wearable that has
 * forgotten it.
 */
export function addLink(state: WearableState, link: Link): void {
  while (state.links.length >= MAX_LINKS) {
    const oldest = state.links.findIndex((kept) => mayForget(state, kept));
    if (oldest === -1) throw new Error('the ledger has no room');
    state.links.splice(oldest, 1);
  }
  state.links.push(link);
}

/** A sealed session of a shift that is over, or a key that its counter never used. */
function mayForget(state: WearableState, link: Link): boolean {
  return !link.confirmed || (link.sealed && isOver(state, link.shift));
}
