// What the counter makes of a frame (PAI-1, PAI-5, PAI-6, TAL-4, TAL-5).
import type { Acknowledgement, Message } from '../link/messages.js';
import type { Parts } from './parts.js';
import { isDelivered } from './sessions.js';

/** Takes a frame in; returns why it was refused, or ''. */
export function take(parts: Parts, message: Message, from: number): string {
  const { state, send } = parts;
  switch (message.frame) {
    case 'ack':
      return takeAcknowledgement(parts, message, from);
    case 'tally':
    case 'report':
    case 'answer':
      return 'unexpected';
    default:
      if (state.pairing?.peer !== from || message.counter !== state.id) return 'foreign';
      if (message.frame === 'hello') send({ type: 'HELLO', nonce: message.nonce });
      else send({ type: message.frame === 'accept' ? 'ACCEPT' : 'REFUSE' });
      return '';
  }
}

function takeAcknowledgement(parts: Parts, ack: Acknowledgement, from: number): string {
  const { state, send } = parts;
  const { open } = state;
  if (open?.link !== ack.link || open.wearable !== from) return takeForSealed(parts, ack, from);
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
