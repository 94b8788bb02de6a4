// Sessions (PAI-3 to PAI-7): one is open at a time; a sealed one is kept as finished frames until it was delivered or read out.
import type { Acknowledgement } from '../link/messages.js';
import type { SessionSums } from '../port/inner.js';
import { forgetSealed, freeSlot, keepOpened, keepSealed } from './journal.js';
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

export function openSession(parts: Parts, pairing: OpenPairing & { readonly key: Uint8Array }): void {
  const { state } = parts;
  state.lastSession = pairing.session;
  state.open = {
    session: pairing.session,
    link: pairing.link,
    key: pairing.key,
    wearable: pairing.peer,
    sums: noSums(),
    kept: noSums(),
    sequence: 0,
    reserved: 0,
    sequenceAtBoot: 1,
    heard: 0,
    report: null,
    reportAcknowledged: false,
    sensorFailed: state.sensorWatch.faulty,
    unkept: true,
    powerLost: false,
  };
  keepOpened(parts, state.open);
}

/** Ends the open session, which is kept from now on as its last frames; what is counted after it is unclaimed. */
export function seal(parts: Parts): void {
  const { state, board, send } = parts;
  const { open } = state;
  if (open === null) throw new Error('there is no session to seal');
  const { session, link, key, wearable } = open;
  board.inner.count(session, open.sums);
  const report = makeReport(parts, open);
  const tally = makeTally(parts, open, open.sums, true);
  const sealed = {
    session,
    link,
    key,
    wearable,
    frames: report === null ? [tally] : [report, tally],
    slot: freeSlot(state),
    kept: false,
  };
  state.sealed.push(sealed);
  state.open = null;
  state.tallyWaits = false;
  keepSealed(parts, sealed);
  board.inner.session(session, 'sealed', wearable);
  send({ type: 'SEALED' });
}

/** A sealed session is let go of: its wearable has it, or somebody has read it out of the counter. */
export function letGo(parts: Parts, sealed: SealedSession, what: 'delivered' | 'read out'): void {
  const { state, board, send } = parts;
  state.sealed.splice(state.sealed.indexOf(sealed), 1);
  forgetSealed(parts, sealed);
  board.inner.session(sealed.session, what, sealed.wearable);
  if (state.sealed.length === 0) send({ type: 'DELIVERED_ALL' });
}

/** What every sealed session's last tally says. */
export function sealedSums({ sealed }: CounterState): (SessionSums & { readonly session: number })[] {
  return sealed.flatMap(({ session, frames }) =>
    frames.flatMap(({ message }) => {
      if (message.frame !== 'tally') return [];
      const { dose, triggerWindows, unratedWindows } = message;
      return [{ session, dose, triggerWindows, unratedWindows }];
    }),
  );
}

/** Whether an acknowledgement covers every frame of a sealed session. */
export function isDelivered(sealed: SealedSession, ack: Acknowledgement): boolean {
  return sealed.frames.every(({ message }) =>
    message.frame === 'tally' ? ack.highest >= message.sequence : ack.highestReport >= message.sequence,
  );
}

/** Links are told apart by 16 random bits; 0 and those in use are not given out: the next free one is. */
export function freeLink(state: CounterState, randomBits: number): number {
  const taken = new Set([0, state.open?.link, ...state.sealed.map((sealed) => sealed.link)]);
  let link = randomBits & 0xffff;
  while (taken.has(link)) link = (link + 1) & 0xffff;
  return link;
}
