// The record of a wearable (WEA-4): its shifts, oldest first, and what every session of every counter had in them. Whoever reads
// it needs nothing else, and knows a damaged one by its CRC.
import { bytesOf, REPORT_BITS, SUMS_BITS } from '../link/layout.js';
import { pack, unpack } from '../link/pack.js';
import { misfit, readRecord, writeRecord } from '../port/record.js';
import type { Parts } from './parts.js';
import { INCOMPLETE, type Link, type Shift } from './state.js';

/** The record: how many shifts and sessions, then the shifts, then the sessions. */
const HEAD_BITS = { shifts: 16, sessions: 16 } as const;
const SHIFT_BITS = {
  shift: 32,
  ...SUMS_BITS,
  open: 1,
  long: 1,
  incomplete: 6,
  reserved: 4,
} as const;
const SESSION_BITS = {
  shift: 32,
  session: 32,
  counter: 16,
  powerLosses: REPORT_BITS.powerLosses,
  ...SUMS_BITS,
  shortBursts: REPORT_BITS.shortBursts,
  sealed: 1,
  reserved: 3,
} as const;

/** Dose in u, windows of 100 ms. */
export interface RecordedShift {
  readonly shift: number;
  readonly dose: number;
  readonly triggerWindows: number;
  readonly unratedWindows: number;
  readonly open: boolean;
  /** More than 16 h (WEA-3). */
  readonly long: boolean;
  /** Why the sums may be too small: names of INCOMPLETE. */
  readonly incomplete: readonly string[];
}

/** One session of a counter; its shift need not be among those that are still kept. */
export interface RecordedSession {
  readonly shift: number;
  readonly counter: number;
  readonly session: number;
  readonly dose: number;
  readonly triggerWindows: number;
  readonly unratedWindows: number;
  readonly shortBursts: number;
  readonly powerLosses: number;
  /** Whether the counter has told its last tally. */
  readonly sealed: boolean;
}

export interface WearableRecord {
  /** Identity of the wearable. */
  readonly device: number;
  readonly shifts: readonly RecordedShift[];
  readonly sessions: readonly RecordedSession[];
}

export function readOut({ state, board }: Parts): void {
  const links = state.links.filter(({ confirmed }) => confirmed);
  const shifts = state.shifts.map((shift) => shiftBytes(shift, state.shiftOpen && shift.shift === state.lastShift));
  const head = { shifts: shifts.length, sessions: links.length };
  board.record(writeRecord('wearable', state.id, pack(HEAD_BITS, head, ...shifts, ...links.map(sessionBytes))));
}

/** What a record says, or a sentence that says what is wrong with it. */
export function readWearableRecord(bytes: Uint8Array): WearableRecord | string {
  const record = readRecord('wearable', bytes);
  if (typeof record === 'string') return record;
  const { device, body } = record;
  const headBytes = bytesOf(HEAD_BITS);
  if (body.length < headBytes) return misfit(body, headBytes);
  const { tail, ...head } = unpack(HEAD_BITS, body);
  const [shiftBytes, sessionBytes] = [bytesOf(SHIFT_BITS), bytesOf(SESSION_BITS)];
  const wanted = head.shifts * shiftBytes + head.sessions * sessionBytes;
  if (tail.length !== wanted) return misfit(body, headBytes + wanted);
  const sessions = tail.subarray(head.shifts * shiftBytes);
  return {
    device,
    shifts: Array.from({ length: head.shifts }, (_, index) => shiftFrom(tail.subarray(index * shiftBytes))),
    sessions: Array.from({ length: head.sessions }, (_, index) => sessionFrom(sessions.subarray(index * sessionBytes))),
  };
}

function shiftBytes(shift: Shift, open: boolean): Uint8Array {
  return pack(SHIFT_BITS, { ...shift, open: open ? 1 : 0, long: shift.long ? 1 : 0, reserved: 0 });
}

function sessionBytes({ report, ...link }: Link): Uint8Array {
  return pack(SESSION_BITS, { ...link, ...report, sealed: link.sealed ? 1 : 0, reserved: 0 });
}

function shiftFrom(bytes: Uint8Array): RecordedShift {
  const fields = unpack(SHIFT_BITS, bytes);
  const { shift, dose, triggerWindows, unratedWindows } = fields;
  const incomplete = Object.entries(INCOMPLETE).flatMap(([why, bit]) => ((fields.incomplete & bit) === 0 ? [] : [why]));
  return { shift, dose, triggerWindows, unratedWindows, open: fields.open === 1, long: fields.long === 1, incomplete };
}

function sessionFrom(bytes: Uint8Array): RecordedSession {
  const fields = unpack(SESSION_BITS, bytes);
  const { shift, counter, session, dose, triggerWindows, unratedWindows, shortBursts, powerLosses } = fields;
  return {
    shift,
    counter,
    session,
    dose,
    triggerWindows,
    unratedWindows,
    shortBursts,
    powerLosses,
    sealed: fields.sealed === 1,
  };
}
