// What a counter keeps in its journal, so that a power failure costs at most 10 s of trigger time (KEP-1), and how it finds
// it again. Records are written one after the other, and power may fail between any two: what each of them says holds
// whether or not the next one came.
import type { Journal } from '../journal/journal.js';
import { drop, put, settle as settleJournal } from '../journal/noting.js';
import { placesOf, putNumber, sheetOf } from '../link/bits.js';
import { openMessage } from '../link/frames.js';
import { bytesOf, largest, REPORT_BITS, SUMS_BITS } from '../link/layout.js';
import { pack, unpack } from '../link/pack.js';
import type { Sums } from '../port/inner.js';
import { changeRate, noSums } from './meter.js';
import type { Parts } from './parts.js';
import type { CounterState, OpenSession, SealedFrame, SealedSession } from './state.js';

/** Types of records; each is kept once, but for the sealed sessions: one in each of their places. */
const OWN = 1;
const MAGNITUDE = 2;
const SESSION = 3;
const SUMS = 4;
const UNCLAIMED = 5;
const SEALED = 6;

/** Sequence numbers are reserved so many at a time, so that 24 bits tell up to where. */
const RESERVED_AT_ONCE = 256;

const OWN_BITS = { lastSession: 32, powerLosses: 16 } as const;
const MAGNITUDE_BITS = { tenths: 16 } as const;
/** Then the key; of a sealed session then its frames, each after a byte that says how long it is. */
const SESSION_BITS = { session: 32, link: 16, wearable: 16 } as const;
const KEY_BYTES = 16;
const SUMS_RECORD_BITS = {
  ...SUMS_BITS,
  shortBursts: REPORT_BITS.shortBursts,
  reservedBlocks: 24,
  sensorFailed: 1,
  /** The low bits of the session that these sums are of: those of the session before are none of the present one. */
  sessionLow: 11,
} as const;
const SESSION_LOW = largest(SUMS_RECORD_BITS.sessionLow);
/** The last sequence number that can be reserved. */
export const LAST_SEQUENCE = largest(SUMS_RECORD_BITS.reservedBlocks) * RESERVED_AT_ONCE;

/** KEP-1: keeps what was counted, of the open session or of nobody's. True where the journal holds it now. */
export function keepSums(parts: Parts): boolean {
  const { state } = parts;
  return state.open === null ? keepUnclaimed(parts) : keepOpen(parts, state.open, state.open.reserved);
}

/** TAL-2: sees to it that `frames` more can be numbered. True where the journal holds the numbers and what was counted. */
export function reserve(parts: Parts, open: OpenSession, frames: number): boolean {
  return keepOpen(parts, open, open.reserved + (open.sequence + frames > open.reserved ? RESERVED_AT_ONCE : 0));
}

export function keepMagnitude(parts: Parts): void {
  put(parts, MAGNITUDE, 0, pack(MAGNITUDE_BITS, { tenths: parts.state.rate.tenths }));
}

/** The number is kept first: whatever happens, no number is given out twice (PAI-3). */
export function keepOpened(parts: Parts, open: OpenSession): void {
  keepOwn(parts);
  put(parts, SESSION, 0, pack(SESSION_BITS, open, open.key));
}

/** A session that is kept as sealed is no longer open, whether or not its record as the open one is gone. */
export function keepSealed(parts: Parts, sealed: SealedSession): void {
  const frames = sealed.frames.flatMap(({ bytes }) => [Uint8Array.of(bytes.length), bytes]);
  if (put(parts, SEALED, sealed.slot, pack(SESSION_BITS, sealed, sealed.key, ...frames))) noteSealed(parts, sealed);
  drop(parts, SESSION, 0);
}

/** The journal holds it: it may be told. */
function noteSealed({ board }: Parts, sealed: SealedSession): void {
  sealed.kept = true;
  for (const { message } of sealed.frames) if (message.frame === 'tally') board.inner.kept(sealed.session, message);
}

export function forgetSealed(parts: Parts, sealed: SealedSession): void {
  drop(parts, SEALED, sealed.slot);
}

/** A place in the journal that no sealed session has. */
export function freeSlot({ sealed }: CounterState): number {
  let slot = 0;
  while (sealed.some((kept) => kept.slot === slot)) slot += 1;
  return slot;
}

/** KEP-5, CEL-1: writes down what waited for the end of an erase, or for a better cell. */
export function settle(parts: Parts): void {
  if (!settleJournal(parts)) return;
  for (const sealed of parts.state.sealed) {
    if (!sealed.kept && parts.journal.get(SEALED, sealed.slot) !== null) noteSealed(parts, sealed);
  }
}

/** Reads the journal into a fresh state. One that is blank is the journal of a counter that was set before its first day. */
export function recover(parts: Parts, keyedTenths: number): void {
  const { state, journal } = parts;
  const own = journal.get(OWN, 0);
  const magnitude = journal.get(MAGNITUDE, 0);
  const tenths = magnitude === null ? keyedTenths : unpack(MAGNITUDE_BITS, magnitude).tenths;
  changeRate(state.rate, tenths, parts.nowMs());
  state.rate.previousTenths = tenths;
  if (own !== null) {
    const { lastSession, powerLosses } = unpack(OWN_BITS, own);
    state.lastSession = lastSession;
    state.powerLosses = Math.min(largest(OWN_BITS.powerLosses), powerLosses + 1);
  }
  state.sealed = journal.entries(SEALED).map(({ slot, value }) => sealedFrom(parts, slot, value));
  Object.assign(state.unclaimed, sumsFrom(journal.get(UNCLAIMED, 0)));
  state.keptUnclaimed = { ...state.unclaimed };
  state.open = openFrom(state, journal);
  // Power failed after it was sealed: what is left of it must not come back once the sealed one is let go.
  if (state.open === null) drop(parts, SESSION, 0);
  keepOwn(parts);
  if (magnitude === null && tenths !== 0) keepMagnitude(parts);
}

function keepOpen(parts: Parts, open: OpenSession, reserved: number): boolean {
  const { sums } = open;
  const news = !same(open.kept, sums);
  if (!news && !open.unkept && reserved === open.reserved) return true;
  if (!put(parts, SUMS, 0, sumsBytes(sums, reserved, open.sensorFailed, open.session))) return false;
  open.reserved = reserved;
  open.unkept = false;
  if (!news) return true;
  open.kept = { ...sums };
  parts.board.inner.kept(open.session, sums);
  return true;
}

function keepUnclaimed(parts: Parts): boolean {
  const { state } = parts;
  const sums = state.unclaimed;
  if (same(state.keptUnclaimed, sums)) return true;
  if (!put(parts, UNCLAIMED, 0, sumsBytes(sums, 0, false, 0))) return false;
  state.keptUnclaimed = { ...sums };
  parts.board.inner.kept(0, sums);
  return true;
}

const SUMS_PLACES = placesOf(SUMS_RECORD_BITS);
const sheet = sheetOf(bytesOf(SUMS_RECORD_BITS));

/** Written every five seconds while a tool runs, so all records of this kind are made on one sheet; the journal copies it. */
function sumsBytes(sums: Readonly<Sums>, reserved: number, sensorFailed: boolean, session: number): Uint8Array {
  sheet.bytes.fill(0);
  putNumber(sheet, SUMS_PLACES.dose, sums.dose);
  putNumber(sheet, SUMS_PLACES.triggerWindows, sums.triggerWindows);
  putNumber(sheet, SUMS_PLACES.unratedWindows, sums.unratedWindows);
  putNumber(sheet, SUMS_PLACES.shortBursts, sums.shortBursts);
  putNumber(sheet, SUMS_PLACES.reservedBlocks, reserved / RESERVED_AT_ONCE);
  putNumber(sheet, SUMS_PLACES.sensorFailed, sensorFailed ? 1 : 0);
  putNumber(sheet, SUMS_PLACES.sessionLow, session & SESSION_LOW);
  return sheet.bytes;
}

function keepOwn(parts: Parts): void {
  const { lastSession, powerLosses } = parts.state;
  put(parts, OWN, 0, pack(OWN_BITS, { lastSession, powerLosses }));
}

function openFrom(state: CounterState, journal: Journal): OpenSession | null {
  const record = journal.get(SESSION, 0);
  if (record === null) return null;
  const { session, link, wearable, tail: key } = unpack(SESSION_BITS, record);
  if (state.sealed.some((sealed) => sealed.session === session)) return null;
  const kept = journal.get(SUMS, 0);
  const fields = kept === null ? undefined : unpack(SUMS_RECORD_BITS, kept);
  const mine = fields?.sessionLow === (session & SESSION_LOW) ? fields : undefined;
  const sums = mine === undefined ? noSums() : sumsFrom(kept);
  const reserved = (mine?.reservedBlocks ?? 0) * RESERVED_AT_ONCE;
  return {
    session,
    link,
    wearable,
    key,
    sums,
    kept: { ...sums },
    sequence: reserved,
    reserved,
    sequenceAtBoot: reserved + 1,
    heard: 0,
    report: null,
    reportAcknowledged: false,
    sensorFailed: mine?.sensorFailed === 1,
    unkept: false,
    powerLost: true,
  };
}

function sealedFrom({ board }: Parts, slot: number, record: Uint8Array): SealedSession {
  const { session, link, wearable, tail } = unpack(SESSION_BITS, record);
  const key = tail.slice(0, KEY_BYTES);
  const frames: SealedFrame[] = [];
  for (let at = KEY_BYTES; at < tail.length; at += tail[at]! + 1) {
    const bytes = tail.slice(at + 1, at + 1 + tail[at]!);
    const message = openMessage(board.cipher, { key, session }, bytes);
    if (typeof message === 'string' || (message.frame !== 'tally' && message.frame !== 'report')) {
      throw new Error(`the journal holds a frame of session ${session} that is none of it`);
    }
    frames.push({ bytes, message });
  }
  return { session, link, wearable, key, frames, slot, kept: true };
}

function sumsFrom(record: Uint8Array | null): Sums {
  if (record === null) return noSums();
  const { dose, triggerWindows, unratedWindows, shortBursts } = unpack(SUMS_RECORD_BITS, record);
  return { dose, triggerWindows, unratedWindows, shortBursts };
}

function same(a: Readonly<Sums>, b: Readonly<Sums>): boolean {
  return (
    a.triggerWindows === b.triggerWindows &&
    a.dose === b.dose &&
    a.unratedWindows === b.unratedWindows &&
    a.shortBursts === b.shortBursts
  );
}
