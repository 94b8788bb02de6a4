// The air between two devices: what becomes of a frame that one of them sends. Nothing here knows what a frame says.
import type { RandomStream } from '../kernel/random.js';

/** Probabilities are ratios num/den. */
export interface AirConditions {
  readonly lossNum: number;
  readonly lossDen: number;
  readonly duplicateNum: number;
  readonly duplicateDen: number;
  /** A frame takes a delay drawn from delayFromMs..delayToMs, 1 or more; a wide span reorders frames. */
  readonly delayFromMs: number;
  readonly delayToMs: number;
}

/** An ordinary day on site: nothing is lost, and a frame takes a few milliseconds. Invented, but of the right size. */
export const CLEAR_AIR: AirConditions = {
  lossNum: 0,
  lossDen: 1,
  duplicateNum: 0,
  duplicateDen: 1,
  delayFromMs: 2,
  delayToMs: 12,
};

/** Delays, in ms, after which copies of one frame arrive: none where it is lost, two where it is doubled. */
export function arrivalsMs(conditions: AirConditions, random: RandomStream): readonly number[] {
  if (random.chance(conditions.lossNum, conditions.lossDen)) return [];
  const first = random.within(conditions.delayFromMs, conditions.delayToMs);
  if (!random.chance(conditions.duplicateNum, conditions.duplicateDen)) return [first];
  return [first, random.within(conditions.delayFromMs, conditions.delayToMs)];
}
