// The wearable's side of a pairing (PAI-1): its hello, the digits, and the key that it keeps once both sides accepted.
import { comparisonDigits } from '../link/pairing.js';
import { addLink, hasRoom } from './ledger.js';
import type { Parts } from './parts.js';
import type { OpenPairing } from './state.js';

export function openPairing({ state, board }: Parts, peer: number): void {
  state.pairing = { peer, nonce: board.random(), link: 0, session: 0, digits: -1 };
}

export function sendHello({ state, board }: Parts): void {
  const { peer, nonce } = opened(state.pairing);
  board.send({ frame: 'hello', counter: peer, wearable: state.id, nonce }, peer);
}

/** The counter's answer: from now on both show the same digits, if both heard the same. */
export function showDigits({ state }: Parts, nonce: number, link: number, session: number): void {
  const pairing = opened(state.pairing);
  pairing.link = link;
  pairing.session = session;
  pairing.digits = comparisonDigits(pairing.nonce, nonce);
}

/** Keeps the key of a pairing that both have accepted; until a tally comes under it, it charges nothing. */
export function keepKey(parts: Parts): void {
  const { state } = parts;
  const { peer, link, session } = opened(state.pairing);
  state.pairing = null;
  addLink(state, {
    counter: peer,
    link,
    session,
    shift: state.shiftOpen ? state.lastShift : state.lastShift + 1,
    dose: 0,
    triggerWindows: 0,
    unratedWindows: 0,
    confirmed: false,
    sealed: false,
    running: false,
    stale: false,
    flags: 0,
    highest: 0,
    highestReport: 0,
    sequence: 0,
    heardMs: parts.nowMs(),
  });
}

/** The last frame of a pairing; said again where the counter has not heard it. */
export function sendAccept({ state, board }: Parts, counter: number, link: number): void {
  board.send({ frame: 'accept', counter, wearable: state.id, link }, counter);
}

/** Whether the counter's accept is of the pairing that is open, and there is still room for its key. */
export function mayKeepKey({ state }: Parts, counter: number, link: number): boolean {
  return state.pairing?.peer === counter && state.pairing.link === link && hasRoom(state, counter);
}

/** Whether the key of this pairing is kept and no tally has confirmed it yet. */
export function keyKept({ state }: Parts, counter: number, link: number): boolean {
  return state.links.some((kept) => kept.counter === counter && kept.link === link && !kept.confirmed);
}

function opened(pairing: OpenPairing | null): OpenPairing {
  if (pairing === null) throw new Error('no pairing is open');
  return pairing;
}
