// What tools do to a hand, as acceleration over time: what a rotary, a percussive and an impact tool are known by, and what else
// a counter's sensor feels. Invented, of the size of CHARACTERS in levels.ts: m/s² along one axis, the tool's strongest, on which
// its counter's sensor is mounted; unweighted.
import type { Noise } from './noise.js';
import { SAMPLES_PER_MS, tone, wave } from './wave.js';

/** Acceleration at a sample of the motion, counted from its beginning, m/s². */
export type Voice = (sample: number) => number;

type NoiseMaker = (name: string, everyMs: number) => Noise;

export interface Vibration {
  /** From rest to full swing, and from full swing to rest, ms; both lie within the motion. */
  readonly spinUpMs: number;
  readonly spinDownMs: number;
  voice(noise: NoiseMaker): Voice;
}

/** A blow rings and dies: each `everyMs`, for `ringMs`. */
function blow(sample: number, everyMs: number, ringMs: number, hz: number): number {
  const since = sample % (everyMs * SAMPLES_PER_MS);
  const left = 1 - since / (ringMs * SAMPLES_PER_MS);
  return left <= 0 ? 0 : left * left * left * tone(hz, since);
}

/** Turns of something that comes again each everyMs. */
function swing(sample: number, everyMs: number): number {
  const samples = everyMs * SAMPLES_PER_MS;
  return wave((sample % samples) / samples);
}

export const VIBRATIONS = {
  /** A grinder: its unbalance, its gear, and what the stone does; the hand leans on it now more, now less. */
  rotary: {
    spinUpMs: 60,
    spinDownMs: 80,
    voice: (noise) => {
      const hand = noise('hand', 200);
      const stone = noise('stone', 1);
      return (sample) =>
        (1 + 0.2 * hand.at(sample)) * (22 * tone(105, sample) + 9 * tone(840, sample)) + 11 * stone.at(sample);
    },
  },
  /** A breaker: 22 blows a second that ring in the handle, none quite like the last, and the recoil of its body. */
  percussive: {
    spinUpMs: 45,
    spinDownMs: 90,
    voice: (noise) => {
      const ground = noise('ground', 45);
      const rubble = noise('rubble', 1);
      return (sample) =>
        (1 + 0.15 * ground.at(sample)) * 290 * blow(sample, 45, 30, 480) +
        28 * swing(sample, 45) +
        10 * rubble.at(sample);
    },
  },
  /** An impact wrench that is kept at it: single shots of its anvil, 20 a second, and its turning between them. */
  impact: {
    spinUpMs: 50,
    spinDownMs: 100,
    voice: (noise) => {
      const bolt = noise('bolt', 50);
      return (sample) =>
        (1 + 0.2 * bolt.at(sample)) * 640 * blow(sample, 50, 22, 760) + 20 * tone(160, sample) + 12 * swing(sample, 50);
    },
  },
  /** An impact wrench that gives one shot a second, and nothing between. */
  shots: {
    spinUpMs: 0,
    spinDownMs: 0,
    voice: () => (sample) => 640 * blow(sample, 1000, 60, 760),
  },
  /** A saw whose engine idles: it runs, though it does no work. */
  idling: {
    spinUpMs: 60,
    spinDownMs: 80,
    voice: (noise) => {
      const engine = noise('engine', 120);
      const parts = noise('parts', 1);
      return (sample) =>
        (1 + 0.15 * engine.at(sample)) * (2.9 * tone(46, sample) + 1.2 * tone(92, sample)) + 0.9 * parts.at(sample);
    },
  },
  /** Laid down running: it rattles on the ground, and no hand damps or drives it. */
  laid: {
    spinUpMs: 60,
    spinDownMs: 80,
    voice: (noise) => {
      const contact = noise('contact', 90);
      const rattle = noise('rattle', 1);
      return (sample) =>
        (1 + 0.5 * contact.at(sample)) * (7 * tone(105, sample) + 3 * tone(840, sample) + 6 * rattle.at(sample));
    },
  },
  /** Carried in a van: the engine hums; the road is good for a while, then bad; there are holes in it, and red lights. */
  carried: {
    spinUpMs: 200,
    spinDownMs: 200,
    voice: (noise) => {
      const surface = noise('surface', 7000);
      const road = noise('road', 14);
      const holes = noise('holes', 900);
      const rattle = noise('rattle', 1);
      return (sample) => {
        const rough = Math.max(0, surface.at(sample) + 0.35);
        const hole = Math.max(0, holes.at(sample) - 0.55);
        return 0.35 * tone(29, sample) + (2.2 * rough + 16 * hole * hole) * (road.at(sample) + 0.3 * rattle.at(sample));
      };
    },
  },
} as const satisfies Record<string, Vibration>;

export type VibrationName = keyof typeof VIBRATIONS;
