// The ledger (WEA-1, TAL-3): the largest values known of every counter's every session.
import type { SessionSums } from '../port/inner.js';
import { forgetLink, keepShift } from './journal.js';
import type { Parts } from './parts.js';
import { isOver } from './shifts.js';
import type { Link, WearableState } from './state.js';
import { addSums } from './sums.js';

/** PAI-5 */
const MAX_COUNTERS = 32;
/** Sessions kept in all. Sealed ones of closed shifts make room; where none can, a pairing is refused. */
const MAX_LINKS = 256;

/**
 * Takes a tally into an entry: each sum becomes the larger of the two, so that lost, late, doubled and reordered tallies
 * change nothing in the end. True where the entry grew.
 */
export function merge(entry: SessionSums, tally: Readonly<SessionSums>): boolean {
  const grew =
    tally.dose > entry.dose ||
    tally.triggerWindows > entry.triggerWindows ||
    tally.unratedWindows > entry.unratedWindows;
  entry.dose = Math.max(entry.dose, tally.dose);
  entry.triggerWindows = Math.max(entry.triggerWindows, tally.triggerWindows);
  entry.unratedWindows = Math.max(entry.unratedWindows, tally.unratedWindows);
  return grew;
}

/** Whether a session of this counter could be taken in. While a page is erased nothing can be forgotten to make room. */
export function hasRoom({ state, board }: Parts, counter: number): boolean {
  const needed = board.flash.busy() ? state.links : state.links.filter((link) => !mayForget(state, link));
  const counters = new Set(state.links.filter((link) => !mayForget(state, link)).map((link) => link.counter));
  return needed.length < MAX_LINKS && counters.add(counter).size <= MAX_COUNTERS;
}

/**
 * Makes room for a session; call it only where hasRoom() says yes. What may be forgotten is kept as long as there is a place
 * for it: its counter may not have heard the last acknowledgement yet, and would tell it for ever to a wearable that has
 * forgotten it.
 */
export function makeRoom(parts: Parts): void {
  const { links } = parts.state;
  while (links.length >= MAX_LINKS) {
    const oldest = links.find((kept) => mayForget(parts.state, kept));
    if (oldest === undefined) throw new Error('the ledger has no room');
    forget(parts, oldest);
  }
}

/** Its sums stay with its shift; the shift's record names it, so that it counts once wherever the power fails. */
function forget(parts: Parts, link: Link): void {
  const { links, shifts } = parts.state;
  const shift = shifts.find((kept) => kept.shift === link.shift);
  // A key that was never used has no sums, and its counter gives its number to the next pairing.
  if (shift !== undefined && link.confirmed) {
    const { folded } = shift;
    addSums(folded, link);
    folded.counter = link.counter;
    folded.session = link.session;
    keepShift(parts, shift);
  }
  forgetLink(parts, link);
  links.splice(links.indexOf(link), 1);
}

/** A sealed session of a shift that is over, or a key that its counter never used. */
function mayForget(state: WearableState, link: Link): boolean {
  return !link.confirmed || (link.sealed && isOver(state, link.shift));
}
