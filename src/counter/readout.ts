// The readout of a counter (PAI-7): sessions whose wearable never acknowledged them, lost perhaps, are handed to the reader,
// listed as undelivered, and let go of.
import { REPORT_BITS, TALLY_BITS } from '../link/layout.js';
import { TALLY_FLAGS } from '../link/messages.js';
import { pack } from '../link/pack.js';
import { writeRecord } from '../port/record.js';
import type { Parts } from './parts.js';
import { letGo } from './sessions.js';
import type { SealedSession } from './state.js';

/** Of the record: what is unclaimed, then a list of sessions. */
export const COUNTER_RECORD_BITS = {
  powerLosses: 16,
  unclaimedDose: TALLY_BITS.dose,
  unclaimedWindows: TALLY_BITS.triggerWindows,
  sessions: 16,
} as const;

export const UNDELIVERED_BITS = {
  session: 32,
  wearable: 16,
  dose: TALLY_BITS.dose,
  triggerWindows: TALLY_BITS.triggerWindows,
  unratedWindows: TALLY_BITS.unratedWindows,
  shortBursts: REPORT_BITS.shortBursts,
  flags: TALLY_BITS.flags,
  reserved: 3,
} as const;

export function readOut(parts: Parts): void {
  const { state, board } = parts;
  const told = state.sealed.filter(({ kept }) => kept);
  const head = {
    powerLosses: state.powerLosses,
    unclaimedDose: state.keptUnclaimed.dose,
    unclaimedWindows: state.keptUnclaimed.triggerWindows,
    sessions: told.length,
  };
  board.record(writeRecord('counter', state.id, pack(COUNTER_RECORD_BITS, head, ...told.map(undelivered))));
  for (const sealed of told) letGo(parts, sealed, 'read out');
}

function undelivered({ session, wearable, frames }: SealedSession): Uint8Array {
  const last = { dose: 0, triggerWindows: 0, unratedWindows: 0, shortBursts: 0, flags: TALLY_FLAGS.sealed };
  for (const { message } of frames) {
    if (message.frame === 'report') last.shortBursts = message.shortBursts;
    else {
      const { dose, triggerWindows, unratedWindows, flags } = message;
      Object.assign(last, { dose, triggerWindows, unratedWindows, flags });
    }
  }
  return pack(UNDELIVERED_BITS, { ...last, session, wearable, reserved: 0 });
}
