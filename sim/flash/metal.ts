// What becomes of the bytes of a page where an operation does not go as it should: power fails in it, or the page is bad.
// Pure: bytes are changed in place, chance is drawn from the stream given.
import type { RandomStream } from '../kernel/random.js';
import { BLANK, ERASE_STEPS } from './geometry.js';

/** Of 64 bytes of a bad page that many go wrong in an operation, on average. Invented. */
const WRONG_OF_64 = 8;

/** Programs bytes at address: bits are cleared, never set. */
export function programWell(flash: Uint8Array, address: number, bytes: Uint8Array): void {
  for (let index = 0; index < bytes.length; index++) flash[address + index]! &= bytes[index]!;
}

/** Power fails after `whole` bytes, 0..length - 1: of the next only some bits are cleared, the rest stays as it was. */
export function programCut(
  flash: Uint8Array,
  address: number,
  bytes: Uint8Array,
  whole: number,
  random: RandomStream,
): void {
  programWell(flash, address, bytes.subarray(0, whole));
  flash[address + whole]! &= bytes[whole]! | random.bits();
}

/** In a bad page some bits of some bytes stay as they were. */
export function programBadly(flash: Uint8Array, address: number, bytes: Uint8Array, random: RandomStream): void {
  for (let index = 0; index < bytes.length; index++) {
    const drawn = random.bits();
    const stuck = (drawn & 63) < WRONG_OF_64 ? drawn >>> 8 : 0;
    flash[address + index]! &= bytes[index]! | stuck;
  }
}

/**
 * Power fails after `steps` of ERASE_STEPS: a byte is as it was, has some of its bits set, or is blank. Early on most are as
 * they were, late most are blank.
 */
export function eraseCut(page: Uint8Array, steps: number, random: RandomStream): void {
  for (let index = 0; index < page.length; index++) {
    const drawn = random.bits();
    if (drawn % ERASE_STEPS >= steps) continue;
    page[index]! |= (drawn >>> 8) % ERASE_STEPS < steps ? BLANK : drawn >>> 16;
  }
}

/** In a bad page some bits stay at 0. */
export function eraseBadly(page: Uint8Array, random: RandomStream): void {
  for (let index = 0; index < page.length; index++) {
    const drawn = random.bits();
    page[index]! |= (drawn & 63) < WRONG_OF_64 ? drawn >>> 8 : BLANK;
  }
}
