// TAL-1: a tally, a report and an acknowledgement each fit 27 bytes, and every field holds every value it can have.
import { expect, test } from 'vitest';
import { MAX_DOSE, MAX_MAGNITUDE_TENTHS, U_PER_POINT } from '../../src/exposure/dose.js';
import {
  ACCEPT_BITS,
  ACKNOWLEDGEMENT_BITS,
  ANSWER_BITS,
  bytesOf,
  frameBytes,
  HEADER_BITS,
  HELLO_BITS,
  KIND_CODES,
  largest,
  NONCE_BITS,
  PAIRING_NONCE_BITS,
  pairingBytes,
  REFUSE_BITS,
  REPORT_BITS,
  TAG_BITS,
  TALLY_BITS,
} from '../../src/link/layout.js';
import { ALERT_LEVELS, TALLY_FLAGS } from '../../src/link/messages.js';

/** Most points of a level: notice and site levels go to 1000 (src/scenario/day.ts), a regime's limit is 400. */
const MOST_POINTS = 1000;

test('each frame fits 27 bytes, and the tally fills them', () => {
  expect(frameBytes(TALLY_BITS)).toBe(27);
  expect(frameBytes(REPORT_BITS)).toBeLessThanOrEqual(27);
  expect(frameBytes(ACKNOWLEDGEMENT_BITS)).toBeLessThanOrEqual(27);
  expect(frameBytes(ACCEPT_BITS)).toBeLessThanOrEqual(27);
  expect(frameBytes({ body: 8 * 16 })).toBe(27);
  expect(() => frameBytes({ body: 8 * 17 })).toThrow('a frame of 28 bytes is longer than 27');
});

test('each frame of a pairing fits 244 bytes', () => {
  for (const body of [HELLO_BITS, ANSWER_BITS, PAIRING_NONCE_BITS, REFUSE_BITS]) {
    expect(pairingBytes(body)).toBeLessThanOrEqual(244);
  }
  expect(pairingBytes({ body: 8 * 239 })).toBe(244);
  expect(() => pairingBytes({ body: 8 * 240 })).toThrow('a frame of 245 bytes is longer than 244');
});

test('a nonce has the 13 bytes that CCM wants with two bytes of length', () => {
  // RFC 3610, section 2: 15 - L bytes, and L is 2 for frames below 64 KiB.
  expect(bytesOf(NONCE_BITS)).toBe(15 - 2);
});

test('every kind has five bits of its own', () => {
  const codes = Object.values(KIND_CODES);
  expect(new Set(codes).size).toBe(codes.length);
  expect(Math.max(...codes)).toBeLessThanOrEqual(largest(HEADER_BITS.kind));
});

test('the tally is laid out as the brief says: 7 bytes of header, 16 of body, 4 of tag', () => {
  expect(HEADER_BITS).toEqual({ kind: 5, version: 3, link: 16, sequence: 32 });
  expect(TALLY_BITS).toEqual({
    dose: 52,
    triggerWindows: 28,
    unratedWindows: 28,
    magnitudeTenths: 9,
    cell: 2,
    flags: 9,
  });
  expect(TAG_BITS).toBe(32);
});

test('a body that does not fill whole bytes is an error', () => {
  expect(() => frameBytes({ odd: 7 })).toThrow('7 bits do not fill whole bytes');
});

test('dose has 52 bits in every frame that carries one', () => {
  expect(largest(TALLY_BITS.dose)).toBe(MAX_DOSE);
  expect(largest(REPORT_BITS.unclaimedDose)).toBe(MAX_DOSE);
});

test('every magnitude fits, and the blank', () => {
  expect(largest(TALLY_BITS.magnitudeTenths)).toBeGreaterThanOrEqual(MAX_MAGNITUDE_TENTHS);
});

test('cell tells four states', () => {
  expect(largest(TALLY_BITS.cell)).toBe(3);
});

test('every flag is one bit of its own, and all of them fit', () => {
  const bits = Object.values(TALLY_FLAGS);
  expect(bits.every((bit) => Number.isInteger(Math.log2(bit)))).toBe(true);
  expect(new Set(bits).size).toBe(bits.length);
  expect(Math.max(...bits)).toBeLessThanOrEqual(largest(TALLY_BITS.flags));
});

test('every alert level fits', () => {
  expect(ALERT_LEVELS.length - 1).toBeLessThanOrEqual(largest(ACKNOWLEDGEMENT_BITS.level));
});

test('tenths of a point to the highest level fit', () => {
  expect(MOST_POINTS * 10).toBeLessThanOrEqual(largest(ACKNOWLEDGEMENT_BITS.leftTenths));
  expect(MOST_POINTS * U_PER_POINT).toBeLessThanOrEqual(MAX_DOSE);
});

test('an acknowledgement carries whole sequences', () => {
  expect(ACKNOWLEDGEMENT_BITS.highest).toBe(HEADER_BITS.sequence);
  expect(ACKNOWLEDGEMENT_BITS.highestReport).toBe(HEADER_BITS.sequence);
});

test('the largest value of a field is exact up to 53 bits', () => {
  expect(largest(1)).toBe(1);
  expect(largest(9)).toBe(511);
  expect(largest(53)).toBe(Number.MAX_SAFE_INTEGER);
});
