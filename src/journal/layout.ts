// The journal's bytes: page header and record, as the tables in README.md say. All integers are big-endian.
import { FLASH } from '../port/flash.js';
import { crcRegister } from './crc32.js';

/** 'CPJ1': this page has been erased to the end, and is or will be a page of the journal, version 1. */
export const MARK = Uint8Array.of(0x43, 0x50, 0x4a, 0x31);
/** Mark 4, sequence 4, CRC-32 4. */
export const PAGE_HEADER_BYTES = 12;
/** Header 4 (type, slot, length, check), CRC-32 4; the value lies between them. */
export const RECORD_FRAME_BYTES = 8;
export const MAX_VALUE_BYTES = 248;
export const MAX_TYPE = 254;
export const MAX_SLOT = 255;
export const MAX_RECORD_BYTES = RECORD_FRAME_BYTES + MAX_VALUE_BYTES;

/** In the place of a length: the key has no value any more. */
const DROPPED = 254;
const RECORD_HEADER_BYTES = 4;
/** The check has seven bits, so that a byte that was not programmed, 0xFF, is never one. */
const CHECK_MASK = 0x7f;

/** type 0..MAX_TYPE (the journal's own: 255), slot 0..MAX_SLOT. */
export function keyOf(type: number, slot: number): number {
  return (type << 8) | slot;
}

/** Bytes that a record takes in flash; null is a drop. */
export function recordBytes(value: Uint8Array | null): number {
  return value === null ? RECORD_FRAME_BYTES : RECORD_FRAME_BYTES + padded(value.length);
}

/**
 * Where a record begins, counted as if the flash never ended, modulo 2^32. The CRC starts from it, so that a record is one
 * only in its own place: a copy of it inside a value, or left over from before an erase, is none.
 */
export function placeOf(sequence: number, offset: number): number {
  return Math.imul(sequence, FLASH.pageBytes) + offset;
}

/** Writes a record to the front of `into`, for a place; returns its bytes. */
export function writeRecord(into: Uint8Array, key: number, value: Uint8Array | null, place: number): number {
  const length = value === null ? 0 : value.length;
  const end = RECORD_HEADER_BYTES + padded(length);
  into[0] = key >> 8;
  into[1] = key & 0xff;
  into[2] = value === null ? DROPPED : length;
  const checked = crcRegister(~place, into, 0, 3);
  into[3] = checked & CHECK_MASK;
  if (value !== null) into.set(value, RECORD_HEADER_BYTES);
  for (let at = RECORD_HEADER_BYTES + length; at < end; at++) into[at] = 0xff;
  writeWord(into, end, ~crcRegister(checked, into, 3, end));
  return end + 4;
}

/** What stands at an offset of a page: a record, a torn one whose bytes are known, or no header of a record. */
export type Found = 'record' | 'torn' | 'none';

/** Reads records one after another without making objects of them. */
export class RecordReader {
  key = 0;
  /** Where the value begins, and its bytes; null: a drop. */
  valueAt = 0;
  valueBytes: number | null = null;
  /** Bytes of the record, whole or torn. */
  size = 0;

  /** bytes: one page or more; at: where the record would begin; pageEnd: where its page ends. */
  look(bytes: Uint8Array, at: number, pageEnd: number, place: number): Found {
    const stated = bytes[at + 2]!;
    if (stated > MAX_VALUE_BYTES && stated !== DROPPED) return 'none';
    const checked = crcRegister(~place, bytes, at, at + 3);
    if (bytes[at + 3] !== (checked & CHECK_MASK)) return 'none';
    const dropped = stated === DROPPED;
    const end = at + RECORD_HEADER_BYTES + (dropped ? 0 : padded(stated));
    if (end + 4 > pageEnd) return 'none';
    this.size = end + 4 - at;
    if (readWord(bytes, end) !== ~crcRegister(checked, bytes, at + 3, end)) return 'torn';
    this.key = keyOf(bytes[at]!, bytes[at + 1]!);
    this.valueAt = at + RECORD_HEADER_BYTES;
    this.valueBytes = dropped ? null : stated;
    return 'record';
  }
}

/** What follows the mark of a page that is opened. */
export function pageOpening(sequence: number): Uint8Array {
  const header = new Uint8Array(PAGE_HEADER_BYTES);
  header.set(MARK);
  writeWord(header, 4, sequence);
  writeWord(header, 8, ~crcRegister(~0, header, 0, 8));
  return header.subarray(MARK.length);
}

/** The sequence in the header of the page that begins at `at`, 1 or more; 0 where there is no whole header. */
export function sequenceAt(bytes: Uint8Array, at: number): number {
  if (readWord(bytes, at + 8) !== ~crcRegister(~0, bytes, at, at + 8)) return 0;
  return isMarked(bytes, at) ? readWord(bytes, at + 4) >>> 0 : 0;
}

export function isMarked(bytes: Uint8Array, at: number): boolean {
  return MARK.every((byte, index) => bytes[at + index] === byte);
}

function padded(bytes: number): number {
  return (bytes + 3) & ~3;
}

/** Signed, as the register of a CRC is. */
function readWord(bytes: Uint8Array, at: number): number {
  return (bytes[at]! << 24) | (bytes[at + 1]! << 16) | (bytes[at + 2]! << 8) | bytes[at + 3]!;
}

function writeWord(bytes: Uint8Array, at: number, word: number): void {
  bytes[at] = word >>> 24;
  bytes[at + 1] = word >>> 16;
  bytes[at + 2] = word >>> 8;
  bytes[at + 3] = word;
}
