// A record of fields, all at once, for what is kept or handed over; frames have a codec of their own, which is faster.
import { type Place, placesOf, putNumber, sheetOf, takeNumber } from './bits.js';
import { bytesOf, type Layout } from './layout.js';

type Values<L extends Layout> = { readonly [field in keyof L]: number };

interface Plan {
  readonly bytes: number;
  readonly fields: readonly (readonly [field: string, place: Place])[];
}

const plans = new WeakMap<Layout, Plan>();

/** The fields of a layout that fills whole bytes, then whole bytes as they are. Throws on a value that its field cannot hold. */
export function pack<L extends Layout>(layout: L, values: Values<L>, ...tails: readonly Uint8Array[]): Uint8Array {
  const { bytes: length, fields } = planOf(layout);
  const sheet = sheetOf(tails.reduce((sum, tail) => sum + tail.length, length));
  const { bytes } = sheet;
  for (const [field, place] of fields) putNumber(sheet, place, values[field]!);
  let at = length;
  for (const tail of tails) {
    bytes.set(tail, at);
    at += tail.length;
  }
  return bytes;
}

/** The fields of a layout, and the bytes after them. Throws where there are too few. */
export function unpack<L extends Layout>(layout: L, bytes: Uint8Array): Values<L> & { readonly tail: Uint8Array } {
  const { bytes: length, fields } = planOf(layout);
  if (bytes.length < length) throw new Error(`${bytes.length} bytes given for ${length}`);
  const values: Record<string, number | Uint8Array> = { tail: bytes.slice(length) };
  const sheet = sheetOf(length);
  sheet.bytes.set(bytes.subarray(0, length));
  for (const [field, place] of fields) values[field] = takeNumber(sheet, place);
  return values as Values<L> & { readonly tail: Uint8Array };
}

function planOf(layout: Layout): Plan {
  const known = plans.get(layout);
  if (known !== undefined) return known;
  const made = { bytes: bytesOf(layout), fields: Object.entries(placesOf(layout)) };
  plans.set(layout, made);
  return made;
}
