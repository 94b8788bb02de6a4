// What the counter makes of a frame (PAI-1, PAI-2, PAI-5, PAI-6, TAL-4, TAL-5, TAL-7). Nothing is believed before its tag, or the
// pairing that it is part of, has spoken for it.
import { sameBytes } from '../link/bytes.js';
import { openMessage, peek, readPairing } from '../link/frames.js';
import type { Acknowledgement } from '../link/messages.js';
import type { ClearMessage, SealedMessage } from '../link/pairing-messages.js';
import type { Refusal } from '../port/refusals.js';
import { isThrottled, noteBadTag } from '../port/throttle.js';
import type { Parts } from './parts.js';
import { isDelivered, letGo } from './sessions.js';
import type { OpenPairing, OpenSession, SealedSession } from './state.js';

/** Takes a frame in; returns why it was refused, or ''. */
export function take(parts: Parts, frame: Uint8Array): Refusal | '' {
  const outside = peek(frame);
  if (typeof outside === 'string') return outside;
  switch (outside.frame) {
    case 'tally':
    case 'report':
      return 'unexpected';
    case 'ack':
    case 'accept':
      return takeSealed(parts, frame, outside.link);
    default: {
      const message = readPairing(frame);
      return typeof message === 'string' ? message : takeOpen(parts, message);
    }
  }
}

function takeOpen(parts: Parts, message: ClearMessage): Refusal | '' {
  const { state, send } = parts;
  const { pairing } = state;
  if (pairing === null || message.wearable !== pairing.peer || message.counter !== state.id) return 'foreign';
  switch (message.frame) {
    case 'hello':
      return takeHello(parts, pairing, message.publicKey);
    case 'nonce':
      return takeNonce(parts, pairing, message.nonce);
    case 'refuse':
      send({ type: 'REFUSE', reason: message.reason });
      return '';
    default:
      return 'unexpected';
  }
}

/** PAI-2: whoever has said a key, or a nonce, cannot say another: a middleman has one guess. */
function takeHello({ board, send }: Parts, pairing: OpenPairing, key: Uint8Array): Refusal | '' {
  if (pairing.peerKey !== null && !sameBytes(pairing.peerKey, key)) return 'changed';
  if (board.cipher.agree(pairing.secret, key) === null) return 'changed';
  pairing.peerKey = key;
  send({ type: 'HELLO' });
  return '';
}

function takeNonce({ send }: Parts, pairing: OpenPairing, nonce: Uint8Array): Refusal | '' {
  if (pairing.peerKey === null) return 'unexpected';
  if (pairing.peerNonce !== null && !sameBytes(pairing.peerNonce, nonce)) return 'changed';
  pairing.peerNonce = nonce;
  send({ type: 'NONCE' });
  return '';
}

function takeSealed(parts: Parts, frame: Uint8Array, link: number): Refusal | '' {
  const { state, board } = parts;
  const { open, pairing, badTags } = state;
  const sealed = state.sealed.find((kept) => kept.link === link);
  const pending =
    pairing?.link === link && pairing.key !== null ? { key: pairing.key, session: pairing.session } : null;
  const secured = open?.link === link ? open : (sealed ?? pending);
  if (secured === null) return 'foreign';
  if (isThrottled(badTags, parts.nowMs())) return 'throttled';
  const message = openMessage(board.cipher, secured, frame);
  if (message === 'tag') noteBadTag(badTags, parts.nowMs());
  if (typeof message === 'string') return message;
  if (message.frame === 'ack' && open !== null && secured === open) return takeForOpen(parts, open, message);
  if (message.frame === 'ack' && sealed !== undefined) return takeForSealed(parts, sealed, message);
  return takeAccept(parts, message, secured === pending);
}

function takeAccept({ state, send }: Parts, message: SealedMessage, expected: boolean): Refusal | '' {
  if (message.frame !== 'accept' || message.by !== 'wearable' || !expected) return 'unexpected';
  if (message.counter !== state.id || message.wearable !== state.pairing?.peer) return 'foreign';
  send({ type: 'ACCEPT' });
  return '';
}

function takeForOpen({ state, send }: Parts, open: OpenSession, ack: Acknowledgement): Refusal | '' {
  // One of before the last start speaks of numbers that were given out before it.
  const old =
    ack.sequence <= open.heard || (ack.highest < open.sequenceAtBoot && ack.highestReport < open.sequenceAtBoot);
  if (old) return 'replayed';
  open.heard = ack.sequence;
  if (open.report !== null && ack.highestReport >= open.report.sequence) open.reportAcknowledged = true;
  state.advice = { level: ack.level, leftTenths: ack.leftTenths };
  send({ type: 'ADVICE' });
  if (ack.closed) send({ type: 'CLOSED' });
  return '';
}

/** A sealed session is let go once every one of its frames is acknowledged. */
function takeForSealed(parts: Parts, sealed: SealedSession, ack: Acknowledgement): Refusal | '' {
  if (isDelivered(sealed, ack)) letGo(parts, sealed, 'delivered');
  return '';
}
