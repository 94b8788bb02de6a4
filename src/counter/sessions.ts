// Sessions (PAI-3 to PAI-6): one is open at a time; a sealed one is kept as finished frames until it was delivered.
import type { Acknowledgement, Report, Tally } from '../link/messages.js';
import { noSums } from './meter.js';
import type { Parts } from './parts.js';
import type { CounterState, OpenPairing, SealedSession } from './state.js';
import { makeReport, makeTally } from './telling.js';

/** PAI-5 */
const MAX_SEALED = 32;

/** The open session will want a place too, however it ends: with it counted, 32 are never passed. */
export function storeIsFull(state: CounterState): boolean {
  return state.sealed.length + (state.open === null ? 0 : 1) >= MAX_SEALED;
}

export function openSession(state: CounterState, pairing: OpenPairing): void {
  state.lastSession = pairing.session;
  state.open = {
    session: pairing.session,
    link: pairing.link,
    wearable: pairing.peer,
    sums: noSums(),
    sequence: 0,
    heard: 0,
    report: null,
    reportAcknowledged: false,
    sensorFailed: state.sensorWatch.faulty,
  };
}

/** Ends the open session, which is kept from now on as its last frames; what is counted after it is unclaimed. */
export function seal({ state, inner, send }: Parts): void {
  const { open } = state;
  if (open === null) throw new Error('there is no session to seal');
  const { session, link, wearable } = open;
  inner.count(session, open.sums);
  const report = makeReport(state, open);
  const tally = makeTally(state, open, true);
  state.sealed.push({ session, link, wearable, frames: report === null ? [tally] : [report, tally] });
  state.open = null;
  inner.session(session, 'sealed', wearable);
  send({ type: 'SEALED' });
}

/** Whether an acknowledgement covers every frame of a sealed session. */
export function isDelivered(sealed: SealedSession, ack: Acknowledgement): boolean {
  return sealed.frames.every((frame: Tally | Report) =>
    frame.frame === 'tally' ? ack.highest >= frame.sequence : ack.highestReport >= frame.sequence,
  );
}

/** Links are told apart by 16 random bits; 0 and those in use are not given out: the next free one is. */
export function freeLink(state: CounterState, randomBits: number): number {
  const taken = new Set([0, state.open?.link, ...state.sealed.map((sealed) => sealed.link)]);
  let link = randomBits & 0xffff;
  while (taken.has(link)) link = (link + 1) & 0xffff;
  return link;
}
