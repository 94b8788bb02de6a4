// The wrapping of a record that a device hands to its reader (PAI-7, WEA-4): what it is, how long it is, and a CRC-32 over all
// of it, so that a damaged one is known.
import { crc32 } from '../link/crc32.js';
import { bytesOf } from '../link/layout.js';
import { pack, unpack } from '../link/pack.js';

export const RECORD_KINDS = { wearable: 1, counter: 2 } as const;
export type RecordKind = keyof typeof RECORD_KINDS;

const MAGIC = 0x4850;
const VERSION = 1;
const HEAD_BITS = { magic: 16, kind: 8, version: 8, device: 16, length: 32 } as const;
const CRC_BITS = { crc: 32 } as const;

/** device: identity of the one that hands it over. */
export function writeRecord(kind: RecordKind, device: number, body: Uint8Array): Uint8Array {
  const head = { magic: MAGIC, kind: RECORD_KINDS[kind], version: VERSION, device, length: body.length };
  const wrapped = pack(HEAD_BITS, head, body);
  return pack({}, {}, wrapped, pack(CRC_BITS, { crc: crc32(wrapped) }));
}

/** The body of a record, or a sentence that says what is wrong with it. */
export function readRecord(
  kind: RecordKind,
  record: Uint8Array,
): { readonly device: number; readonly body: Uint8Array } | string {
  const headBytes = bytesOf(HEAD_BITS);
  const crcBytes = bytesOf(CRC_BITS);
  if (record.length < headBytes + crcBytes)
    return `a record has ${headBytes + crcBytes} bytes at least, this one ${record.length}`;
  const head = unpack(HEAD_BITS, record);
  if (head.magic !== MAGIC) return 'this does not begin as a record does';
  if (head.version !== VERSION) return `this is version ${head.version} of the record; version ${VERSION} can be read`;
  if (head.length !== record.length - headBytes - crcBytes) {
    return `the record says that it has ${head.length} bytes of content, and has ${record.length - headBytes - crcBytes}`;
  }
  const end = record.length - crcBytes;
  if (unpack(CRC_BITS, record.subarray(end)).crc !== crc32(record.subarray(0, end))) {
    return 'its CRC is wrong: some of it was changed or lost since the device wrote it';
  }
  if (head.kind !== RECORD_KINDS[kind]) return `this is no record of a ${kind}`;
  return { device: head.device, body: record.slice(headBytes, end) };
}

/** Whether the first bytes are those of a record, whatever comes after them. */
export function beginsAsRecord(bytes: Uint8Array): boolean {
  return bytes[0] === MAGIC >> 8 && bytes[1] === (MAGIC & 0xff);
}

/** Says that a body is shorter or longer than the lists that it counts. */
export function misfit(body: Uint8Array, bytes: number): string {
  return `its contents take ${bytes} bytes as it counts them, and it has ${body.length}`;
}
