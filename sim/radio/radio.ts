// The air between two devices: what becomes of a frame that one of them sends. Nothing here knows what a frame says.
import type { RandomStream } from '../kernel/random.js';

/** Probabilities are ratios num/den. */
export interface AirConditions {
  readonly lossNum: number;
  readonly lossDen: number;
  readonly duplicateNum: number;
  readonly duplicateDen: number;
  /** That a copy of a frame arrives with some of its bits flipped. */
  readonly errorNum: number;
  readonly errorDen: number;
  /** A frame takes a delay drawn from delayFromMs..delayToMs, 0 or more; a wide span reorders frames. */
  readonly delayFromMs: number;
  readonly delayToMs: number;
}

/** An ordinary day on site: nothing is lost, and a frame takes a few milliseconds. Invented, but of the right size. */
export const CLEAR_AIR: AirConditions = {
  lossNum: 0,
  lossDen: 1,
  duplicateNum: 0,
  duplicateDen: 1,
  errorNum: 0,
  errorDen: 1,
  delayFromMs: 2,
  delayToMs: 12,
};

/** One copy of a frame: how long it takes, in ms, and whether its bits are flipped on the way (flipBits says which). */
export interface Arrival {
  readonly delayMs: number;
  readonly flips: boolean;
}

const MAX_FLIPS = 8;

/** Copies of one frame that arrive: none where it is lost, two where it is doubled. */
export function arrivals(conditions: AirConditions, random: RandomStream): readonly Arrival[] {
  return arrivalsMs(conditions, random).map((delayMs) => ({
    delayMs,
    flips: random.chance(conditions.errorNum, conditions.errorDen),
  }));
}

/** Delays, in ms, after which copies of one frame arrive. */
function arrivalsMs(conditions: AirConditions, random: RandomStream): readonly number[] {
  if (random.chance(conditions.lossNum, conditions.lossDen)) return [];
  const first = random.within(conditions.delayFromMs, conditions.delayToMs);
  if (!random.chance(conditions.duplicateNum, conditions.duplicateDen)) return [first];
  return [first, random.within(conditions.delayFromMs, conditions.delayToMs)];
}

/** A copy in which 1..MAX_FLIPS different bits are flipped; of no bytes, no bytes. */
export function flipBits(bytes: Uint8Array, random: RandomStream): Uint8Array {
  const copy = bytes.slice();
  const bits = 8 * bytes.length;
  if (bits === 0) return copy;
  const flips = random.within(1, MAX_FLIPS);
  const flipped = new Set<number>();
  // Floyd's way to draw so many different numbers with one draw each: one drawn twice gives way to the newest candidate.
  for (let last = bits - flips; last < bits; last++) {
    const drawn = random.within(0, last);
    flipped.add(flipped.has(drawn) ? last : drawn);
  }
  for (const bit of flipped) copy[bit >> 3]! ^= 1 << (bit & 7);
  return copy;
}
