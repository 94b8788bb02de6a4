// Fields of a layout put onto a sheet of bytes and taken from it: integers most significant bit first, bytes as they are.
// A number that 32 bits from the byte of its first bit can hold is read and written at once; a wider one in two halves.
import type { Layout } from './layout.js';

/** Bytes that are filled in or read by field. What belongs to them is `bytes`; the view goes on behind them. */
export interface Sheet {
  readonly bytes: Uint8Array;
  readonly view: DataView;
}

/** Where a field lies: the byte of its first bit, and the bits before it in that byte. */
export interface Place {
  readonly byte: number;
  readonly before: number;
  readonly bits: number;
  /** The low 24 bits of a number of more than 32, which has its high bits here. */
  readonly low: Place | null;
}

export type Places<L extends Layout> = { readonly [field in keyof L]: Place };

const WORD_BITS = 32;
const LOW_BITS = 24;

/** A sheet of so many bytes, all 0. */
export function sheetOf(bytes: number): Sheet {
  const buffer = new ArrayBuffer(bytes + WORD_BITS / 8);
  return { bytes: new Uint8Array(buffer, 0, bytes), view: new DataView(buffer) };
}

/** The places of a layout that begins at a byte. */
export function placesOf<L extends Layout>(layout: L, fromByte = 0): Places<L> {
  let bit = fromByte * 8;
  const places: Record<string, Place> = {};
  for (const [field, bits] of Object.entries(layout)) {
    const wide = bits > WORD_BITS && bits < 64;
    places[field] = wide
      ? { ...placeOf(bit, bits - LOW_BITS), low: placeOf(bit + bits - LOW_BITS, LOW_BITS) }
      : placeOf(bit, bits);
    bit += bits;
  }
  return places as Places<L>;
}

function placeOf(bit: number, bits: number): Place {
  const before = bit % 8;
  const fits = before + bits <= WORD_BITS || (before === 0 && bits % 8 === 0);
  if (!fits) throw new Error(`${bits} bits from bit ${before} of a byte on can be read neither at once nor as bytes`);
  return { byte: (bit - before) / 8, before, bits, low: null };
}

export function takeNumber({ view }: Sheet, place: Place): number {
  const high = takeWord(view, place);
  return place.low === null ? high : high * 2 ** LOW_BITS + takeWord(view, place.low);
}

/** Throws on a value that the field cannot hold. */
export function putNumber({ view }: Sheet, place: Place, value: number): void {
  if (place.low === null) {
    const word = value >>> 0;
    if (word !== value || !holds(place, word)) refuse(place, value);
    putWord(view, place, word);
  } else {
    const low = value & (2 ** LOW_BITS - 1);
    const high = (value - low) / 2 ** LOW_BITS;
    if (high !== high >>> 0 || !holds(place, high)) refuse(place, value);
    putWord(view, place, high);
    putWord(view, place.low, low);
  }
}

function takeWord(view: DataView, { byte, before, bits }: Place): number {
  return (view.getInt32(byte) << before) >>> (WORD_BITS - bits);
}

function putWord(view: DataView, { byte, before, bits }: Place, word: number): void {
  const after = WORD_BITS - bits;
  const mask = (-1 << after) >>> before;
  view.setInt32(byte, (view.getInt32(byte) & ~mask) | ((word << after) >>> before));
}

function holds({ bits }: Place, word: number): boolean {
  return (word << (WORD_BITS - bits)) >>> (WORD_BITS - bits) === word;
}

function refuse({ bits, low }: Place, value: number): never {
  throw new Error(`a field of ${bits + (low?.bits ?? 0)} bits cannot hold ${value}`);
}

/** A copy of a field that is whole bytes. */
export function takeBytes({ bytes }: Sheet, { byte, bits }: Place): Uint8Array {
  return bytes.slice(byte, byte + bits / 8);
}

/** Throws where the bytes are not as many as the field holds. */
export function putBytes({ bytes }: Sheet, { byte, bits }: Place, value: Uint8Array): void {
  if (value.length !== bits / 8) throw new Error(`a field of ${bits / 8} bytes cannot hold ${value.length}`);
  bytes.set(value, byte);
}
