// What the counter makes of a frame (PAI-1, PAI-5, PAI-6, TAL-4, TAL-5).
import type { Acknowledgement, Message, PairingMessage } from '../link/messages.js';
import type { Parts } from './parts.js';
import { isDelivered } from './sessions.js';

/** Takes a frame in; returns why it was refused, or ''. */
export function take(parts: Parts, message: Message, from: number): string {
  switch (message.frame) {
    case 'ack':
      return takeAcknowledgement(parts, message, from);
    case 'tally':
    case 'report':
      return 'unexpected';
    default:
      return takePairing(parts, message, from);
  }
}

function takePairing({ state, send }: Parts, message: PairingMessage, from: number): string {
  const { pairing } = state;
  if (pairing?.peer !== from || message.counter !== state.id) return 'foreign';
  switch (message.frame) {
    case 'hello':
      send({ type: 'HELLO', nonce: message.nonce });
      return '';
    case 'accept':
      if (message.link !== pairing.link) return 'foreign';
      send({ type: 'ACCEPT' });
      return '';
    case 'refuse':
      send({ type: 'REFUSE', reason: message.reason });
      return '';
    case 'answer':
      return 'unexpected';
  }
}

function takeAcknowledgement(parts: Parts, ack: Acknowledgement, from: number): string {
  const { state, send } = parts;
  const { open } = state;
  if (open?.link !== ack.link || open.wearable !== from) return takeForSealed(parts, ack, from);
  if (ack.sequence <= open.heard) return 'replayed';
  open.heard = ack.sequence;
  if (open.report !== null && ack.highestReport >= open.report.sequence) open.reportAcknowledged = true;
  state.advice = { level: ack.level, leftTenths: ack.leftTenths };
  send({ type: 'ADVICE' });
  if (ack.closed) send({ type: 'CLOSED' });
  return '';
}

/** A sealed session is let go once every one of its frames is acknowledged. */
function takeForSealed({ state, inner, send }: Parts, ack: Acknowledgement, from: number): string {
  const index = state.sealed.findIndex((kept) => kept.link === ack.link && kept.wearable === from);
  const sealed = state.sealed[index];
  if (sealed === undefined) return 'foreign';
  if (!isDelivered(sealed, ack)) return '';
  state.sealed.splice(index, 1);
  inner.session(sealed.session, 'delivered', sealed.wearable);
  if (state.sealed.length === 0) send({ type: 'DELIVERED_ALL' });
  return '';
}
