// Blocks of pcapng, byte for byte as draft-ietf-opsawg-pcapng lays them out (section 3.1 general block, 3.5 options, 4.1 section
// header, 4.2 interface description, 4.3 enhanced packet).
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { interfaceOf, packet, sectionHeader } from '../../../src/show/capture/pcapng.js';

function hex(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString('hex');
}

function joined(...parts: readonly string[]): string {
  return parts.join('').replaceAll(' ', '');
}

test('a section header', () => {
  expect(hex(sectionHeader('abcd', 'Tor'))).toBe(
    joined(
      '0a0d0d0a 30000000', // type; length, 48 bytes
      '4d3c2b1a 0100 0000', // byte-order magic; version 1.0
      'ffffffffffffffff', // length of the section: not specified
      '0100 0300 546f7200', // comment, 3 bytes, padded to 4
      '0400 0400 61626364', // application
      '0000 0000 30000000', // end of options; length again
    ),
  );
});

test('an interface', () => {
  expect(hex(interfaceOf(147, 'air', 'ü'))).toBe(
    joined(
      '01000000 30000000',
      '9300 0000 00000000', // link type; reserved; no limit on the length of a packet
      '0200 0300 61697200', // name
      '0300 0200 c3bc0000', // description, in UTF-8
      '0900 0100 03000000', // timestamps in units of 10^-3 s
      '0000 0000 30000000',
    ),
  );
});

test('a packet', () => {
  expect(hex(packet(0x1_0203_0405, Uint8Array.of(1, 2, 3, 4, 5), 'to me'))).toBe(
    joined(
      '06000000 38000000',
      '00000000 01000000 05040302', // interface; timestamp, high and low half
      '05000000 05000000 0102030405000000', // captured and original length; the bytes, padded
      '0100 0500 746f206d65000000', // comment
      '0000 0000 38000000',
    ),
  );
});

test('every block fills whole words and says twice how long it is, whatever is in it', () => {
  fc.assert(
    fc.property(
      fc.nat(),
      fc.uint8Array({ maxLength: 300 }),
      fc.string({ unit: 'grapheme' }),
      (atMs, bytes, comment) => {
        for (const block of [
          packet(atMs, bytes, comment),
          sectionHeader(comment, comment),
          interfaceOf(1, comment, comment),
        ]) {
          const view = new DataView(block.buffer);
          expect(block.length % 4).toBe(0);
          expect([view.getUint32(4, true), view.getUint32(block.length - 4, true)]).toEqual([
            block.length,
            block.length,
          ]);
        }
      },
    ),
  );
});
