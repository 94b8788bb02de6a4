// The acceleration that a sensor on a tool is exposed to, as samples: what moves the tool, and the sensor's own noise. A function
// of the seed and the position alone, so that any span can be had by itself, block by block or all at once.
import { Noise } from './noise.js';
import { VIBRATIONS, type VibrationName, type Voice } from './vibrations.js';
import { SAMPLES_PER_MS, smoothStep } from './wave.js';

/** A stretch of time in which something moves the tool: it begins to at fromMs, and is at rest again at untilMs. */
export interface Motion {
  readonly vibration: VibrationName;
  readonly fromMs: number;
  readonly untilMs: number;
}

export interface Sensor {
  /** 0..2^32-1 */
  readonly seed: number;
  /** Sensors of one seed differ by name. */
  readonly name: string;
}

/** Amplitude of the sensor's own noise, m/s²: about 0.07 r.m.s. of the band. */
const SENSOR_NOISE = 0.16;

/**
 * Samples of fromMs up to toMs, m/s², SAMPLES_PER_MS a ms; times in whole ms from 0 on. A motion sounds the same whenever it is
 * asked for, also when its end was not yet known.
 */
export function acceleration(sensor: Sensor, motions: readonly Motion[], fromMs: number, toMs: number): Float64Array {
  const first = fromMs * SAMPLES_PER_MS;
  const samples = new Float64Array((toMs - fromMs) * SAMPLES_PER_MS);
  const own = new Noise(sensor.seed, `${sensor.name} sensor`, SAMPLES_PER_MS);
  for (let index = 0; index < samples.length; index++) samples[index] = SENSOR_NOISE * own.at(first + index);
  for (const motion of motions) {
    if (motion.fromMs < toMs && motion.untilMs > fromMs) addMotion(samples, first, motion, voiceOf(sensor, motion));
  }
  return samples;
}

function addMotion(samples: Float64Array, first: number, motion: Motion, voice: Voice): void {
  const { spinUpMs, spinDownMs } = VIBRATIONS[motion.vibration];
  const begins = motion.fromMs * SAMPLES_PER_MS;
  const ends = motion.untilMs * SAMPLES_PER_MS;
  const last = Math.min(samples.length, ends - first);
  for (let index = Math.max(0, begins - first); index < last; index++) {
    const since = first + index - begins;
    const left = ends - first - index;
    const swing = part(since, spinUpMs) * part(left, spinDownMs);
    samples[index] = samples[index]! + swing * voice(since);
  }
}

function part(samples: number, lengthMs: number): number {
  const length = lengthMs * SAMPLES_PER_MS;
  return samples >= length ? 1 : smoothStep(samples / length);
}

function voiceOf({ seed, name }: Sensor, { vibration, fromMs }: Motion): Voice {
  return VIBRATIONS[vibration].voice(
    (part, everyMs) => new Noise(seed, `${name} ${fromMs} ${part}`, everyMs * SAMPLES_PER_MS),
  );
}
