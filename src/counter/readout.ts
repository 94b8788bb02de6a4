// The readout of a counter (PAI-7): sessions whose wearable never acknowledged them, lost perhaps, are handed to the reader,
// listed as undelivered, and let go of. The record, as it is written and as it is read.
import { bytesOf, REPORT_BITS, SUMS_BITS, TALLY_BITS } from '../link/layout.js';
import { TALLY_FLAGS } from '../link/messages.js';
import { pack, unpack } from '../link/pack.js';
import { misfit, readRecord, writeRecord } from '../port/record.js';
import type { Parts } from './parts.js';
import { letGo } from './sessions.js';
import type { SealedSession } from './state.js';

/** Of the record: what is unclaimed, then a list of sessions. */
const COUNTER_RECORD_BITS = {
  powerLosses: 16,
  unclaimedDose: SUMS_BITS.dose,
  unclaimedWindows: SUMS_BITS.triggerWindows,
  sessions: 16,
} as const;

const UNDELIVERED_BITS = {
  session: 32,
  wearable: 16,
  ...SUMS_BITS,
  shortBursts: REPORT_BITS.shortBursts,
  flags: TALLY_BITS.flags,
  reserved: 3,
} as const;

/** Names of TALLY_FLAGS, as the last tally of a session said them. */
export type TallyFlag = keyof typeof TALLY_FLAGS;

/** Dose in u, windows of 100 ms. */
export interface UndeliveredSession {
  readonly session: number;
  /** Identity of the wearable that never acknowledged it. */
  readonly wearable: number;
  readonly dose: number;
  readonly triggerWindows: number;
  readonly unratedWindows: number;
  readonly shortBursts: number;
  readonly flags: readonly TallyFlag[];
}

export interface CounterRecord {
  /** Identity of the counter. */
  readonly device: number;
  readonly powerLosses: number;
  /** Counted outside any session (PAI-4), rated or not. */
  readonly unclaimed: { readonly dose: number; readonly triggerWindows: number };
  readonly undelivered: readonly UndeliveredSession[];
}

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

/** What a record says, or a sentence that says what is wrong with it. */
export function readCounterRecord(bytes: Uint8Array): CounterRecord | string {
  const record = readRecord('counter', bytes);
  if (typeof record === 'string') return record;
  const { device, body } = record;
  const headBytes = bytesOf(COUNTER_RECORD_BITS);
  if (body.length < headBytes) return misfit(body, headBytes);
  const { powerLosses, unclaimedDose, unclaimedWindows, sessions, tail } = unpack(COUNTER_RECORD_BITS, body);
  const sessionBytes = bytesOf(UNDELIVERED_BITS);
  if (tail.length !== sessions * sessionBytes) return misfit(body, headBytes + sessions * sessionBytes);
  return {
    device,
    powerLosses,
    unclaimed: { dose: unclaimedDose, triggerWindows: unclaimedWindows },
    undelivered: Array.from({ length: sessions }, (_, index) => undeliveredFrom(tail.subarray(index * sessionBytes))),
  };
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

function undeliveredFrom(bytes: Uint8Array): UndeliveredSession {
  const { session, wearable, dose, triggerWindows, unratedWindows, shortBursts, flags } = unpack(
    UNDELIVERED_BITS,
    bytes,
  );
  const said = (Object.keys(TALLY_FLAGS) as TallyFlag[]).filter((flag) => (flags & TALLY_FLAGS[flag]) !== 0);
  return { session, wearable, dose, triggerWindows, unratedWindows, shortBursts, flags: said };
}
