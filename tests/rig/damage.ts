// Records as they should not be: with a byte changed, cut short, made longer, or with a right CRC over wrong contents.
import { crc32 } from '../../src/link/crc32.js';

const CRC_BYTES = 4;

/** The record with each single byte changed to each other value. */
export function* eachByteChanged(record: Uint8Array): Iterable<Uint8Array> {
  for (let at = 0; at < record.length; at++) {
    for (let change = 1; change < 256; change++) {
      const changed = record.slice();
      changed[at]! ^= change;
      yield changed;
    }
  }
}

/** The record with each single byte left out, then with one put in at each place. */
export function* eachByteLostOrAdded(record: Uint8Array): Iterable<Uint8Array> {
  for (let at = 0; at < record.length; at++) yield Uint8Array.of(...record.subarray(0, at), ...record.subarray(at + 1));
  for (let at = 0; at <= record.length; at++) yield Uint8Array.of(...record.subarray(0, at), 0, ...record.subarray(at));
}

/** The record with a byte of its contents set, and a CRC that is right for that: damaged by nobody, written wrongly. */
export function writtenWith(record: Uint8Array, at: number, byte: number): Uint8Array {
  const copy = record.slice();
  copy[at] = byte;
  const end = copy.length - CRC_BYTES;
  new DataView(copy.buffer).setUint32(end, crc32(copy.subarray(0, end)));
  return copy;
}
