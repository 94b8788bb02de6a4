// What the wearable makes of a frame (PAI-1, PAI-2, TAL-3, TAL-4, TAL-7). Nothing is believed before its tag, or the pairing that
// it is part of, has spoken for it.

import { sameBytes } from '../link/bytes.js';
import type { FrameRefusal } from '../link/frames.js';
import { openMessage, peek, readPairing } from '../link/frames.js';
import type { ClearMessage, SealedMessage } from '../link/pairing-messages.js';
import type { Refusal } from '../port/refusals.js';
import { isThrottled, noteBadTag } from '../port/throttle.js';
import { keepsCommitment } from './pairing.js';
import type { Parts } from './parts.js';
import type { Link, OpenPairing } from './state.js';
import { takeReport, takeTally } from './tallies.js';

/** Takes a frame in; returns why it was refused, or ''. */
export function take(parts: Parts, frame: Uint8Array): Refusal | '' {
  const outside = peek(frame);
  if (typeof outside === 'string') return outside;
  switch (outside.frame) {
    case 'ack':
    case 'hello':
    case 'nonce':
      return 'unexpected';
    case 'tally':
    case 'report':
      return takeTold(parts, frame, outside.link);
    case 'accept':
      return takeAccept(parts, frame, outside.link);
    default: {
      const message = readPairing(frame);
      return typeof message === 'string' ? message : takeOpen(parts, message);
    }
  }
}

function takeOpen(parts: Parts, message: ClearMessage): Refusal | '' {
  const { state, send } = parts;
  const { pairing } = state;
  if (pairing === null || message.counter !== pairing.peer || message.wearable !== state.id) return 'foreign';
  switch (message.frame) {
    case 'answer':
      return takeAnswer(parts, pairing, message);
    case 'reveal':
      return takeReveal(parts, pairing, message.nonce);
    case 'refuse':
      send({ type: 'REFUSE', reason: message.reason });
      return '';
    default:
      return 'unexpected';
  }
}

/** PAI-2: whoever has answered cannot answer something else: a middleman has one guess. */
function takeAnswer(parts: Parts, pairing: OpenPairing, answer: ClearMessage & { frame: 'answer' }): Refusal | '' {
  const { publicKey, commitment, link, session } = answer;
  if (pairing.answer !== null) {
    const same = sameBytes(pairing.answer.publicKey, publicKey) && sameBytes(pairing.answer.commitment, commitment);
    return same && pairing.answer.link === link && pairing.answer.session === session ? '' : 'changed';
  }
  if (parts.board.cipher.agree(pairing.secret, publicKey) === null) return 'changed';
  pairing.answer = { publicKey, commitment, link, session };
  parts.send({ type: 'ANSWER' });
  return '';
}

function takeReveal(parts: Parts, pairing: OpenPairing, nonce: Uint8Array): Refusal | '' {
  if (pairing.answer === null) return 'unexpected';
  if (!keepsCommitment(parts, pairing, nonce)) {
    parts.send({ type: 'BROKEN' });
    return 'commitment';
  }
  pairing.peerNonce = nonce;
  parts.send({ type: 'REVEAL' });
  return '';
}

function takeAccept(parts: Parts, frame: Uint8Array, name: number): Refusal | '' {
  const { state, send } = parts;
  const { pairing } = state;
  const pending =
    pairing?.answer?.link === name && pairing.key !== null
      ? [{ counter: pairing.peer, key: pairing.key, session: pairing.answer.session }]
      : [];
  const [secured, message] = openWith(parts, frame, [...pending, ...linksNamed(parts, name)]);
  if (typeof message === 'string') return message;
  if (message.frame !== 'accept' || message.by !== 'counter') return 'unexpected';
  if (message.wearable !== state.id || message.counter !== secured.counter) return 'foreign';
  send({ type: secured === pending[0] ? 'ACCEPT' : 'ACCEPT_AGAIN', counter: secured.counter, link: name });
  return '';
}

function takeTold(parts: Parts, frame: Uint8Array, name: number): Refusal | '' {
  const [link, message] = openWith(parts, frame, linksNamed(parts, name));
  if (typeof message === 'string') return message;
  if (message.frame === 'tally') return takeTally(parts, link, message);
  return message.frame === 'report' ? takeReport(parts, link, message) : 'unexpected';
}

/** Links of different counters may have one name by chance: the key tells which is meant, the newest is tried first. */
function linksNamed({ state }: Parts, name: number): readonly Link[] {
  return state.links.filter((link) => link.link === name).reverse();
}

function openWith<S extends Pick<Link, 'key' | 'session'>>(
  parts: Parts,
  frame: Uint8Array,
  candidates: readonly S[],
): readonly [S, SealedMessage] | readonly [null, Refusal] {
  const { badTags } = parts.state;
  if (candidates.length === 0) return [null, 'foreign'];
  if (isThrottled(badTags, parts.nowMs())) return [null, 'throttled'];
  let refused: FrameRefusal = 'tag';
  for (const secured of candidates) {
    const message = openMessage(parts.board.cipher, secured, frame);
    if (typeof message !== 'string') return [secured, message];
    if (message !== 'tag') refused = message;
  }
  if (refused === 'tag') noteBadTag(badTags, parts.nowMs());
  return [null, refused];
}
