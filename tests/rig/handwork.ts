// Working time from samples: bursts at any millisecond, and the levels that a counter's front end makes of them.
import { acceleration, type Motion, type Sensor } from '../../sim/handwork/acceleration.js';
import { FrontEnd } from '../../sim/handwork/front-end.js';
import type { VibrationName } from '../../sim/handwork/vibrations.js';
import { RATE_HZ } from '../../sim/handwork/wave.js';
import { RandomStream } from '../../sim/kernel/random.js';
import type { Recording } from '../../src/vibration/recording/recording.js';
import type { Mark } from '../../src/vibration/tuning/marks.js';
import { SECOND } from './day.js';
import { madeRecording } from './made-recording.js';

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

/** What a sensor recorded along x of the motions up to a second after the last, under gravity along z, and the marks of it. */
export function recordingOf(
  sensor: Sensor,
  motions: readonly Motion[],
): { readonly recording: Recording; readonly marks: readonly Mark[] } {
  const seconds = Math.ceil(Math.max(...motions.map(({ untilMs }) => untilMs)) / SECOND) + 1;
  const samples = acceleration(sensor, motions, 0, seconds * SECOND);
  const axes = { x: (_: number, at: number) => samples[at]!, z: () => 9.81 };
  const marks = motions
    .filter(({ vibration }) => vibration !== 'carried')
    .map(({ fromMs, untilMs }) => ({ startS: fromMs / SECOND, stopS: untilMs / SECOND }));
  return { recording: madeRecording({ rateHz: RATE_HZ, seconds, axes }), marks };
}
