// What a wearable keeps in its journal (WEA-5), and how it finds it again. The dose of a shift is the sum over its sessions,
// so each tally is one record; only what sessions that had to make room had is kept with the shift itself.
import type { Journal } from '../journal/journal.js';
import { drop, put, settle as settleJournal } from '../journal/noting.js';
import { placesOf, putNumber, sheetOf } from '../link/bits.js';
import { bytesOf, REPORT_BITS, SUMS_BITS, TALLY_BITS } from '../link/layout.js';
import { pack, unpack } from '../link/pack.js';
import type { Parts } from './parts.js';
import type { Link, ReportedSums, Shift, WearableState } from './state.js';
import { addSums } from './sums.js';

/** Types of records. A session has one of each of the last three in the same place. */
const SHIFT = 1;
const KEY = 2;
const ENTRY = 3;
const REPORT = 4;

/** WEA-4 */
export const MAX_SHIFTS = 30;
/** Acknowledgements are numbered; numbers are reserved so many at a time (TAL-2). */
const RESERVED_AT_ONCE = 256;
const MINUTE_MS = 60_000;
const MOST_MINUTES = 0xffff;

/** The sums are those of the sessions that are folded into the shift; counter and session name the last of them. */
const SHIFT_BITS = {
  shift: 32,
  session: 32,
  counter: 16,
  ageMinutes: 16,
  ...SUMS_BITS,
  acknowledged: 3,
  open: 1,
  long: 1,
  incomplete: 6,
  reserved: 1,
} as const;
/** Then the key. */
const KEY_BITS = { counter: 16, link: 16, session: 32, shift: 32 } as const;
const ENTRY_BITS = {
  highest: 32,
  reservedBlocks: 24,
  ageMinutes: 16,
  ...SUMS_BITS,
  flags: TALLY_BITS.flags,
  sealed: 1,
  reserved: 2,
} as const;
const REPORT_RECORD_BITS = {
  highestReport: 32,
  shortBursts: REPORT_BITS.shortBursts,
  powerLosses: REPORT_BITS.powerLosses,
  unclaimedDose: REPORT_BITS.unclaimedDose,
  unclaimedWindows: REPORT_BITS.unclaimedWindows,
} as const;

type Entry = { readonly [field in keyof typeof ENTRY_BITS]: number };

export const NOTHING_REPORTED: ReportedSums = {
  shortBursts: 0,
  powerLosses: 0,
  unclaimedDose: 0,
  unclaimedWindows: 0,
};

export function keepShift(parts: Parts, shift: Shift): boolean {
  const { state } = parts;
  const { folded } = shift;
  return put(
    parts,
    SHIFT,
    shift.shift % MAX_SHIFTS,
    pack(SHIFT_BITS, {
      ...folded,
      shift: shift.shift,
      ageMinutes: ageMinutes(parts, shift),
      acknowledged: shift.acknowledged,
      open: state.shiftOpen && shift.shift === state.lastShift ? 1 : 0,
      long: shift.long ? 1 : 0,
      incomplete: shift.incomplete,
      reserved: 0,
    }),
  );
}

/** PAI-1: the key of a pairing that both have accepted; what a session left there that was forgotten halfway is none of it. */
export function keepLink(parts: Parts, link: Link): void {
  for (const type of [ENTRY, REPORT]) drop(parts, type, link.slot);
  link.kept = put(parts, KEY, link.slot, pack(KEY_BITS, link, link.key));
}

/** What a tally has changed; acknowledgements need numbers, `frames` more of them. True where the journal holds it all. */
export function keepEntry(parts: Parts, link: Link, frames: number): boolean {
  const reserved = link.reserved + (link.sequence + frames > link.reserved ? RESERVED_AT_ONCE : 0);
  if (!link.unkept && reserved === link.reserved) return true;
  if (!put(parts, ENTRY, link.slot, entryBytes(parts, link, reserved))) return false;
  link.reserved = reserved;
  link.unkept = false;
  return true;
}

const ENTRY_PLACES = placesOf(ENTRY_BITS);
const sheet = sheetOf(bytesOf(ENTRY_BITS));

/** Written with every tally, so all records of this kind are made on one sheet; the journal copies it. */
function entryBytes(parts: Parts, link: Link, reserved: number): Uint8Array {
  const shift = parts.state.shifts.find((kept) => kept.shift === link.shift);
  sheet.bytes.fill(0);
  putNumber(sheet, ENTRY_PLACES.highest, link.highest);
  putNumber(sheet, ENTRY_PLACES.reservedBlocks, reserved / RESERVED_AT_ONCE);
  putNumber(sheet, ENTRY_PLACES.ageMinutes, shift === undefined ? 0 : ageMinutes(parts, shift));
  putNumber(sheet, ENTRY_PLACES.dose, link.dose);
  putNumber(sheet, ENTRY_PLACES.triggerWindows, link.triggerWindows);
  putNumber(sheet, ENTRY_PLACES.unratedWindows, link.unratedWindows);
  putNumber(sheet, ENTRY_PLACES.flags, link.flags);
  putNumber(sheet, ENTRY_PLACES.sealed, link.sealed ? 1 : 0);
  return sheet.bytes;
}

/** True where the journal holds what was last reported. */
export function keepReport(parts: Parts, link: Link): boolean {
  if (!link.reportUnkept) return true;
  const record = pack(REPORT_RECORD_BITS, { ...link.report, highestReport: link.highestReport });
  link.reportUnkept = !put(parts, REPORT, link.slot, record);
  return !link.reportUnkept;
}

/** The key goes first: what is left of a session without its key is nothing. */
export function forgetLink(parts: Parts, link: Link): void {
  for (const type of [KEY, ENTRY, REPORT]) drop(parts, type, link.slot);
}

/** A place in the journal that no session has. */
export function freeSlot({ links }: WearableState): number {
  const taken = new Set(links.map(({ slot }) => slot));
  let slot = 0;
  while (taken.has(slot)) slot += 1;
  return slot;
}

/** KEP-5, CEL-1: writes down what waited. True where nothing waits any longer. */
export function settle(parts: Parts): boolean {
  const settled = settleJournal(parts);
  for (const link of parts.state.links) link.kept ||= settled && parts.journal.get(KEY, link.slot) !== null;
  return settled;
}

/** Reads the journal into a fresh state. */
export function recover(parts: Parts): void {
  const { state, journal } = parts;
  const shifts = journal.entries(SHIFT).map(({ value }) => unpack(SHIFT_BITS, value));
  shifts.sort((a, b) => a.shift - b.shift);
  state.shifts = shifts.map(shiftFrom);
  const last = shifts[shifts.length - 1];
  state.lastShift = last?.shift ?? 0;
  state.shiftOpen = last?.open === 1;
  for (const { slot, value } of journal.entries(KEY)) takeUp(parts, slot, value);
  // As they came to be, as far as the journal tells: the oldest makes room first, and counters number their own sessions.
  state.links.sort((a, b) => a.shift - b.shift || a.session - b.session || a.counter - b.counter);
}

function takeUp(parts: Parts, slot: number, record: Uint8Array): void {
  const { state, journal } = parts;
  const entry = journal.get(ENTRY, slot);
  const sums = entry === null ? undefined : unpack(ENTRY_BITS, entry);
  const link = linkFrom(journal, slot, record, sums);
  const shift = state.shifts.find((kept) => kept.shift === link.shift);
  if (shift?.folded.counter === link.counter && shift.folded.session === link.session) {
    // Power failed after its sums were put to those of the shift, and before it was forgotten.
    forgetLink(parts, link);
    return;
  }
  state.links.push(link);
  if (shift === undefined) return;
  addSums(shift, link);
  shift.openedMs = Math.min(shift.openedMs, -(sums?.ageMinutes ?? 0) * MINUTE_MS);
}

function linkFrom(journal: Journal, slot: number, record: Uint8Array, sums: Entry | undefined): Link {
  const { tail: key, ...names } = unpack(KEY_BITS, record);
  const report = journal.get(REPORT, slot);
  const told = report === null ? undefined : unpack(REPORT_RECORD_BITS, report);
  const reserved = (sums?.reservedBlocks ?? 0) * RESERVED_AT_ONCE;
  return {
    ...names,
    key,
    slot,
    kept: true,
    dose: sums?.dose ?? 0,
    triggerWindows: sums?.triggerWindows ?? 0,
    unratedWindows: sums?.unratedWindows ?? 0,
    flags: sums?.flags ?? 0,
    highest: sums?.highest ?? 0,
    highestReport: told?.highestReport ?? 0,
    report: told === undefined ? NOTHING_REPORTED : reportedIn(told),
    sequence: reserved,
    reserved,
    confirmed: sums !== undefined,
    sealed: sums?.sealed === 1,
    running: false,
    // Nobody knows how long the power was gone, so nothing that was heard before is live (TAL-6).
    stale: sums !== undefined && sums.sealed === 0,
    heardMs: null,
    said: null,
    ackWaits: false,
    unkept: false,
    reportUnkept: false,
  };
}

function reportedIn({ shortBursts, powerLosses, unclaimedDose, unclaimedWindows }: ReportedSums): ReportedSums {
  return { shortBursts, powerLosses, unclaimedDose, unclaimedWindows };
}

function shiftFrom(record: { readonly [field in keyof typeof SHIFT_BITS]: number }): Shift {
  const { shift, dose, triggerWindows, unratedWindows, counter, session, incomplete, acknowledged } = record;
  return {
    shift,
    dose,
    triggerWindows,
    unratedWindows,
    incomplete,
    acknowledged,
    long: record.long === 1,
    openedMs: -record.ageMinutes * MINUTE_MS,
    folded: { dose, triggerWindows, unratedWindows, counter, session },
  };
}

/** How long a shift has gone on: it ends of itself after a while, and no clock tells how long the power was gone. */
function ageMinutes({ nowMs }: Parts, shift: Shift): number {
  return Math.min(MOST_MINUTES, Math.floor((nowMs() - shift.openedMs) / MINUTE_MS));
}
