// The wearable's side of a pairing (PAI-1, PAI-2): its hello, its nonce, the digits, and the key that it keeps once both sides
// accepted.
import { sameBytes } from '../link/bytes.js';
import { sealMessage, writePairing } from '../link/frames.js';
import type { RefuseReason } from '../link/messages.js';
import { commitmentOf, comparisonDigits, sessionKey } from '../link/pairing.js';
import type { ClearMessage } from '../link/pairing-messages.js';
import { PAIRING_BYTES, randomBytes } from '../port/random.js';
import { freeSlot, keepLink, NOTHING_REPORTED } from './journal.js';
import { makeRoom } from './ledger.js';
import type { Parts } from './parts.js';
import type { OpenPairing } from './state.js';

export function openPairing({ state, board }: Parts, peer: number): void {
  const secret = randomBytes(board, PAIRING_BYTES.secret);
  state.pairing = {
    peer,
    secret,
    publicKey: board.cipher.publicKey(secret),
    nonce: randomBytes(board, PAIRING_BYTES.nonce),
    answer: null,
    peerNonce: null,
    key: null,
    digits: -1,
  };
}

export function sendHello(parts: Parts): void {
  const { peer, publicKey } = opened(parts.state.pairing);
  sendOpen(parts, { frame: 'hello', counter: peer, wearable: parts.state.id, publicKey });
}

export function sendNonce(parts: Parts): void {
  const { peer, nonce } = opened(parts.state.pairing);
  sendOpen(parts, { frame: 'nonce', counter: peer, wearable: parts.state.id, nonce });
}

/** Whether the nonce revealed is the one that the counter had committed itself to (PAI-2). */
export function keepsCommitment({ board }: Parts, pairing: OpenPairing, nonce: Uint8Array): boolean {
  const { answer, publicKey } = pairing;
  if (answer === null) return false;
  return sameBytes(answer.commitment, commitmentOf(board.cipher, answer.publicKey, publicKey, nonce));
}

/** Both nonces are known: from now on both show the same digits, if both heard the same. */
export function showDigits({ state, board }: Parts): void {
  const pairing = opened(state.pairing);
  const { peer, answer, secret, peerNonce } = pairing;
  if (answer === null || peerNonce === null) throw new Error('nothing is revealed yet');
  const shared = board.cipher.agree(secret, answer.publicKey);
  if (shared === null) throw new Error('a key that nothing can be agreed on with was let in');
  const transcript = {
    counter: peer,
    wearable: state.id,
    link: answer.link,
    session: answer.session,
    counterKey: answer.publicKey,
    wearableKey: pairing.publicKey,
    counterNonce: peerNonce,
    wearableNonce: pairing.nonce,
  };
  pairing.digits = comparisonDigits(board.cipher, transcript);
  pairing.key = sessionKey(board.cipher, shared, transcript);
}

/** Keeps the key of a pairing that both have accepted; until a tally comes under it, it charges nothing. */
export function keepKey(parts: Parts): void {
  const { state } = parts;
  const { peer, answer, key } = opened(state.pairing);
  if (answer === null || key === null) throw new Error('there is no key to keep');
  state.pairing = null;
  makeRoom(parts);
  const link = {
    counter: peer,
    link: answer.link,
    session: answer.session,
    key,
    slot: freeSlot(state),
    kept: false,
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
    report: NOTHING_REPORTED,
    sequence: 0,
    reserved: 0,
    heardMs: parts.nowMs(),
    said: null,
    ackWaits: false,
    unkept: false,
    reportUnkept: false,
  };
  state.links.push(link);
  keepLink(parts, link);
  parts.board.inner.paired(link.counter, link.session, link.shift);
}

/** The last frame of a pairing, once the key is kept; said again where the counter has not heard it. */
export function sendAccept({ state, board, transmit }: Parts, counter: number, name: number): void {
  const link = state.links.findLast((kept) => kept.counter === counter && kept.link === name);
  if (!link?.kept) return;
  const message = { frame: 'accept', link: name, counter, wearable: state.id, by: 'wearable' } as const;
  transmit(sealMessage(board.cipher, link, message), counter, message);
}

export function sendRefusal(parts: Parts, counter: number, reason: RefuseReason): void {
  sendOpen(parts, { frame: 'refuse', counter, wearable: parts.state.id, reason });
}

/** Whether the key of this pairing is kept and no tally has confirmed it yet. */
export function keyKept({ state }: Parts, counter: number, link: number): boolean {
  return state.links.some((kept) => kept.counter === counter && kept.link === link && !kept.confirmed);
}

function sendOpen({ transmit }: Parts, message: ClearMessage): void {
  transmit(writePairing(message), message.counter, message);
}

function opened(pairing: OpenPairing | null): OpenPairing {
  if (pairing === null) throw new Error('no pairing is open');
  return pairing;
}
