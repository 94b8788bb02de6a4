// The journal's bytes are as src/journal/README.md says.
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { newFlash, SimFlash } from '../../sim/flash/flash.js';
import { RandomStream } from '../../sim/kernel/random.js';
import { crcRegister } from '../../src/journal/crc32.js';
import { Journal } from '../../src/journal/journal.js';
import {
  keyOf,
  MAX_RECORD_BYTES,
  pageOpening,
  placeOf,
  RecordReader,
  recordBytes,
  sequenceAt,
  writeRecord,
} from '../../src/journal/layout.js';

const README = readFileSync(new URL('../../src/journal/README.md', import.meta.url), 'utf8');
const VALUE = fc.option(fc.uint8Array({ maxLength: 248 }));
const KEY = fc.nat(0xffff);
const PLACE = fc.integer({ min: 0, max: 2 ** 32 - 1 });

function recordOf(key: number, value: Uint8Array | null, place: number): Uint8Array {
  const into = new Uint8Array(MAX_RECORD_BYTES).fill(0x55);
  return into.subarray(0, writeRecord(into, key, value, place));
}

describe('CRC-32', () => {
  it('gives the check value of the catalogue', () => {
    // CRC-32/ISO-HDLC: the check over "123456789" is 0xcbf43926 (G. Cook, Catalogue of parametrised CRC algorithms; from memory).
    const nine = new TextEncoder().encode('123456789');
    expect(~crcRegister(~0, nine, 0, 9) >>> 0).toBe(0xcbf43926);
  });

  it('may be taken in parts of any length', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 40 }), fc.nat(40), (bytes, some) => {
        const part = Math.min(some, bytes.length);
        const whole = crcRegister(~0, bytes, 0, bytes.length);
        expect(crcRegister(crcRegister(~0, bytes, 0, part), bytes, part, bytes.length)).toBe(whole);
        let single = ~0;
        for (let at = 0; at < bytes.length; at++) single = crcRegister(single, bytes, at, at + 1);
        expect(single).toBe(whole);
      }),
    );
  });
});

describe('the example of the README', () => {
  it('is what a new flash holds after these changes', () => {
    const flash = new SimFlash(newFlash(RandomStream.named(1, 'flash')));
    const journal = Journal.open(flash);
    journal.put(1, 0, Uint8Array.of(0x0a, 0x0b, 0x0c, 0x0d, 0x0e));
    journal.put(2, 7, new Uint8Array());
    journal.drop(1, 0);
    const lines = [...README.matchAll(/^ {4}([0-9A-F]{4}) {2}((?:[0-9A-F]{8} ?)+)/gm)];
    expect(lines).toHaveLength(5);
    let next = 0;
    for (const [, address, words] of lines) {
      const bytes = Buffer.from(words!.replaceAll(' ', ''), 'hex');
      expect(Number.parseInt(address!, 16)).toBe(next);
      expect(Buffer.from(flash.read(next, bytes.length)).toString('hex')).toBe(bytes.toString('hex'));
      next += bytes.length;
    }
    expect([...README.matchAll(/CRC from place (\w+)/g)].map(([, place]) => Number.parseInt(place!, 16))).toEqual(
      [12, 28, 36].map((offset) => placeOf(1, offset)),
    );
  });
});

describe('a record', () => {
  it('is read as it was written, in its place', () => {
    const reader = new RecordReader();
    fc.assert(
      fc.property(KEY, VALUE, PLACE, (key, value, place) => {
        const record = recordOf(key, value, place);
        expect(record.length).toBe(recordBytes(value));
        expect(record.length % 4).toBe(0);
        expect(reader.look(record, 0, record.length, place)).toBe('record');
        expect([reader.key, reader.size, reader.valueBytes]).toEqual([key, record.length, value?.length ?? null]);
        if (value !== null) expect(record.slice(reader.valueAt, reader.valueAt + value.length)).toEqual(value);
      }),
    );
  });

  it('is none in any other place', () => {
    const reader = new RecordReader();
    fc.assert(
      fc.property(KEY, VALUE, PLACE, PLACE, (key, value, place, other) => {
        fc.pre(place !== other);
        const record = recordOf(key, value, place);
        expect(reader.look(record, 0, record.length, other)).not.toBe('record');
      }),
      { numRuns: 1000 },
    );
  });

  it('is torn, of known length, once its header is there, and before that nothing is', () => {
    const reader = new RecordReader();
    fc.assert(
      fc.property(KEY, VALUE, PLACE, fc.nat(), fc.nat(255), (key, value, place, some, stuck) => {
        const record = recordOf(key, value, place);
        const cut = some % record.length;
        const torn = record.slice();
        torn[cut]! |= stuck;
        torn.fill(0xff, cut + 1);
        fc.pre(torn.some((byte, index) => byte !== record[index]));
        const found = reader.look(torn, 0, torn.length, place);
        expect(found).toBe(torn.subarray(0, 4).every((byte, index) => byte === record[index]) ? 'torn' : 'none');
        if (found === 'torn') expect(reader.size).toBe(record.length);
      }),
      { numRuns: 2000 },
    );
  });

  it('ends within its page', () => {
    const reader = new RecordReader();
    const record = recordOf(keyOf(1, 2), Uint8Array.of(1, 2, 3), 5);
    expect(reader.look(record, 0, record.length - 1, 5)).toBe('none');
  });
});

describe('a page header', () => {
  it('has the sequence that it was opened with, and none while it is torn', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 2 ** 32 - 1 }), fc.nat(7), fc.nat(255), (sequence, cut, stuck) => {
        const header = new Uint8Array(12).fill(0xff);
        header.set(new TextEncoder().encode('CPJ1'));
        header.set(pageOpening(sequence), 4);
        expect(sequenceAt(header, 0)).toBe(sequence);
        const torn = header.slice();
        torn[4 + cut]! |= stuck;
        torn.fill(0xff, 5 + cut);
        fc.pre(torn.some((byte, index) => byte !== header[index]));
        expect(sequenceAt(torn, 0)).toBe(0);
        for (let byte = 0; byte < 12; byte++) {
          const struck = header.slice().fill(0, 0, byte + 1);
          if (struck.some((value, index) => value !== header[index])) expect(sequenceAt(struck, 0)).toBe(0);
        }
      }),
    );
  });
});
