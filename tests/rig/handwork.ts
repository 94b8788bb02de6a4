// Working time from samples: bursts at any millisecond, and the levels that a counter's front end makes of them.
import { acceleration, type Motion, type Sensor } from '../../sim/handwork/acceleration.js';
import { FrontEnd } from '../../sim/handwork/front-end.js';
import type { VibrationName } from '../../sim/handwork/vibrations.js';
import { RandomStream } from '../../sim/kernel/random.js';
import { SECOND } from './day.js';

type Range = readonly [leastMs: number, mostMs: number];

/** Bursts one after the other, the first after a rest; their lengths and the rests between them drawn from the ranges, ms. */
export function burstsOf(vibration: VibrationName, count: number, lengths: Range, rests: Range): Motion[] {
  const random = RandomStream.named(11, `bursts ${vibration} ${count}`);
  const motions: Motion[] = [];
  let atMs = SECOND;
  for (let burst = 0; burst < count; burst++) {
    const fromMs = atMs + random.within(...rests);
    atMs = fromMs + random.within(...lengths);
    motions.push({ vibration, fromMs, untilMs: atMs });
  }
  return motions;
}

/** Levels of all windows up to a second after the last motion, mm/s²: every sample of them passes the front end. */
export function levelsOf(sensor: Sensor, motions: readonly Motion[]): number[] {
  const frontEnd = new FrontEnd();
  const toMs = Math.max(...motions.map(({ untilMs }) => untilMs)) + SECOND;
  const levels: number[] = [];
  let first = 0;
  for (let fromMs = 0; fromMs < toMs; fromMs += 100) {
    while (first < motions.length && motions[first]!.untilMs <= fromMs) first += 1;
    levels.push(frontEnd.level(acceleration(sensor, motions.slice(first, first + 2), fromMs, fromMs + 100)));
  }
  return levels;
}
