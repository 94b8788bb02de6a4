// The counter's side of a pairing (PAI-1, PAI-2, PAI-3): its answer with a commitment, its reveal, its accept, and the session
// that it opens in the end.
import { sealMessage, writePairing } from '../link/frames.js';
import type { RefuseReason } from '../link/messages.js';
import { commitmentOf, comparisonDigits, sessionKey } from '../link/pairing.js';
import type { ClearMessage } from '../link/pairing-messages.js';
import { PAIRING_BYTES, randomBytes } from '../port/random.js';
import type { Parts } from './parts.js';
import { freeLink, openSession, seal } from './sessions.js';
import type { OpenPairing } from './state.js';

export function openPairing({ state, board }: Parts, peer: number): void {
  const link = freeLink(state, board.random());
  const secret = randomBytes(board, PAIRING_BYTES.secret);
  state.pairing = {
    peer,
    link,
    session: state.lastSession + 1,
    secret,
    publicKey: board.cipher.publicKey(secret),
    nonce: randomBytes(board, PAIRING_BYTES.nonce),
    peerKey: null,
    peerNonce: null,
    key: null,
    digits: -1,
  };
}

/** To the wearable's hello, perhaps not the first: the answer is the same each time, and commits the counter to its nonce. */
export function answerHello(parts: Parts): void {
  const { state, board } = parts;
  const { peer, link, session, publicKey, nonce, peerKey } = opened(state.pairing);
  if (peerKey === null) throw new Error('there is no hello to answer');
  const commitment = commitmentOf(board.cipher, publicKey, peerKey, nonce);
  sendOpen(parts, { frame: 'answer', counter: state.id, wearable: peer, link, session, publicKey, commitment });
}

/** Both nonces are known: the digits are shown, and the wearable is told the counter's. */
export function revealNonce(parts: Parts): void {
  const { state, board } = parts;
  const pairing = opened(state.pairing);
  const { peer, secret, peerKey, peerNonce, nonce } = pairing;
  if (peerKey === null || peerNonce === null) throw new Error('there is no nonce to reveal one for');
  const shared = board.cipher.agree(secret, peerKey);
  if (shared === null) throw new Error('a key that nothing can be agreed on with was let in');
  const transcript = {
    counter: state.id,
    wearable: peer,
    link: pairing.link,
    session: pairing.session,
    counterKey: pairing.publicKey,
    wearableKey: peerKey,
    counterNonce: nonce,
    wearableNonce: peerNonce,
  };
  pairing.digits = comparisonDigits(board.cipher, transcript);
  pairing.key = sessionKey(board.cipher, shared, transcript);
  sendOpen(parts, { frame: 'reveal', counter: state.id, wearable: peer, nonce });
}

export function sendAccept(parts: Parts): void {
  const { state, board, transmit } = parts;
  const { peer, link, session, key } = opened(state.pairing);
  if (key === null) throw new Error('there is no key to accept with');
  const message = { frame: 'accept', link, counter: state.id, wearable: peer, by: 'counter' } as const;
  transmit(sealMessage(board.cipher, { key, session }, message), peer, message);
}

/** Both have accepted: the session that was open is sealed, the next one opens. */
export function completePairing(parts: Parts): void {
  const { state, board, send } = parts;
  const pairing = opened(state.pairing);
  const { key } = pairing;
  if (key === null) throw new Error('there is no key to open a session with');
  if (state.open !== null) seal(parts);
  openSession(parts, { ...pairing, key });
  state.pairing = null;
  board.inner.session(pairing.session, 'opened', pairing.peer);
  send({ type: 'OPENED' });
}

/** PAI-1, PAI-5: a refusal is said to the wearable that touched. */
export function refusePairing(parts: Parts, peer: number, reason: RefuseReason): void {
  sendOpen(parts, { frame: 'refuse', counter: parts.state.id, wearable: peer, reason });
}

function sendOpen({ transmit }: Parts, message: ClearMessage): void {
  transmit(writePairing(message), message.wearable, message);
}

function opened(pairing: OpenPairing | null): OpenPairing {
  if (pairing === null) throw new Error('no pairing is open');
  return pairing;
}
