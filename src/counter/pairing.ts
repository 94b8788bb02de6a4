// The counter's side of a pairing (PAI-1, PAI-3): its answer, its accept, and the session that it opens in the end.
import type { RefuseReason } from '../link/messages.js';
import { comparisonDigits } from '../link/pairing.js';
import type { Parts } from './parts.js';
import { freeLink, openSession, seal } from './sessions.js';
import type { OpenPairing } from './state.js';

export function openPairing({ state, board }: Parts, peer: number): void {
  const link = freeLink(state, board.random());
  state.pairing = { peer, link, session: state.lastSession + 1, nonce: board.random(), digits: -1 };
}

/** The wearable's hello, perhaps not the first: the answer is the same each time. */
export function answerHello({ state, board }: Parts, wearableNonce: number): void {
  const pairing = opened(state.pairing);
  const { peer, nonce, link, session } = pairing;
  pairing.digits = comparisonDigits(wearableNonce, nonce);
  board.send({ frame: 'answer', counter: state.id, wearable: peer, nonce, link, session }, peer);
}

export function sendAccept({ state, board }: Parts): void {
  const { peer, link } = opened(state.pairing);
  board.send({ frame: 'accept', counter: state.id, wearable: peer, link }, peer);
}

/** Both have accepted: the session that was open is sealed, the next one opens. */
export function completePairing(parts: Parts): void {
  const { state, inner, send } = parts;
  const pairing = opened(state.pairing);
  if (state.open !== null) seal(parts);
  openSession(state, pairing);
  state.pairing = null;
  inner.session(pairing.session, 'opened', pairing.peer);
  send({ type: 'OPENED' });
}

/** PAI-1, PAI-5: a refusal is said to the wearable that touched. */
export function refusePairing({ state, board }: Parts, peer: number, reason: RefuseReason): void {
  board.send({ frame: 'refuse', counter: state.id, wearable: peer, reason }, peer);
}

function opened(pairing: OpenPairing | null): OpenPairing {
  if (pairing === null) throw new Error('no pairing is open');
  return pairing;
}
