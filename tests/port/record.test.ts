// PAI-7, WEA-4: the wrapping of a record: what is wrapped comes out, and a damaged one is known.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { crc32 } from '../../src/link/crc32.js';
import { RECORD_KINDS, type RecordKind, readRecord, writeRecord } from '../../src/port/record.js';

const kinds = fc.constantFrom(...(Object.keys(RECORD_KINDS) as RecordKind[]));
const devices = fc.integer({ min: 1, max: 65_535 });
const bodies = fc.uint8Array({ maxLength: 300 });

/** With the CRC made right for what was changed. */
function mended(record: Uint8Array, at: number, byte: number): Uint8Array {
  const copy = record.slice();
  copy[at] = byte;
  new DataView(copy.buffer).setUint32(copy.length - 4, crc32(copy.subarray(0, copy.length - 4)));
  return copy;
}

const record = writeRecord('counter', 7, Uint8Array.of(1, 2, 3));

test('what is wrapped comes out', () => {
  fc.assert(
    fc.property(kinds, devices, bodies, (kind, device, body) => {
      expect(readRecord(kind, writeRecord(kind, device, body))).toEqual({ device, body });
    }),
  );
});

test('any changed bit is found, whichever it is', () => {
  for (let bit = 0; bit < record.length * 8; bit++) {
    const changed = record.slice();
    changed[bit >> 3]! ^= 1 << (bit & 7);
    expect(typeof readRecord('counter', changed)).toBe('string');
  }
});

test('any number of bytes too few or too many is found', () => {
  for (let length = 0; length < record.length; length++) {
    expect(typeof readRecord('counter', record.subarray(0, length))).toBe('string');
  }
  expect(typeof readRecord('counter', Uint8Array.of(...record, 0))).toBe('string');
});

test('bytes that nobody wrote as a record are none, and nothing throws', () => {
  fc.assert(
    fc.property(kinds, fc.uint8Array({ maxLength: 60 }), (kind, bytes) => {
      expect(typeof readRecord(kind, bytes)).toBe('string');
    }),
  );
});

test.each([
  ['too short', record.subarray(0, 13), 'a record has 14 bytes at least, this one 13'],
  ['something else', mended(record, 0, 0), 'this does not begin as a record does'],
  ['another version', mended(record, 3, 9), 'this is version 9 of the record; version 1 can be read'],
  ['cut short', record.subarray(0, 15), 'the record says that it has 3 bytes of content, and has 1'],
  ['changed', mended(record, 10, 9).map((byte, at) => (at === 11 ? byte ^ 1 : byte)), 'its CRC is wrong'],
  ['of the other device', writeRecord('wearable', 7, Uint8Array.of(1)), 'this is no record of a counter'],
] as const)('one that is %s is said to be', (_, bytes, sentence) => {
  expect(readRecord('counter', bytes)).toContain(sentence);
});
