// Sessions (PAI-3 to PAI-6): one is open at a time; a sealed one is kept as finished frames until it was delivered.
import type { Acknowledgement, Report, Tally } from '../link/messages.js';
import { noSums } from './meter.js';
import type { CounterState, OpenPairing, SealedSession } from './state.js';
import { makeReport, makeTally } from './telling.js';

/** PAI-5 */
export const MAX_SEALED = 32;

/** A pairing seals one session, so it needs a place for it. */
export function storeIsFull(state: CounterState): boolean {
  return state.sealed.length >= MAX_SEALED;
}

export function openSession(state: CounterState, pairing: OpenPairing): void {
  state.lastSession = pairing.session;
  state.open = {
    session: pairing.session,
    link: pairing.link,
    wearable: pairing.peer,
    sums: noSums(),
    sequence: 0,
    report: null,
    reportAcknowledged: false,
  };
}

/** Ends the open session and returns it as it is kept; what is counted from now on is unclaimed. */
export function sealSession(state: CounterState): SealedSession {
  const { open } = state;
  if (open === null) throw new Error('there is no session to seal');
  const report = makeReport(state, open);
  const tally = makeTally(state, open, true);
  const { session, link, wearable } = open;
  const sealed = { session, link, wearable, frames: report === null ? [tally] : [report, tally] };
  state.sealed.push(sealed);
  state.open = null;
  return sealed;
}

/** Whether an acknowledgement covers every frame of a sealed session. */
export function isDelivered(sealed: SealedSession, ack: Acknowledgement): boolean {
  return sealed.frames.every((frame: Tally | Report) =>
    frame.frame === 'tally' ? ack.highest >= frame.sequence : ack.highestReport >= frame.sequence,
  );
}

/** Links are told apart by 16 random bits; 0 and those in use are not given out. */
export function freeLink(state: CounterState, random: () => number): number {
  for (;;) {
    const link = random() & 0xffff;
    const taken = link === 0 || state.open?.link === link || state.sealed.some((sealed) => sealed.link === link);
    if (!taken) return link;
  }
}
