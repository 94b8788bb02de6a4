// Frames that nobody should send, by the thousand: random bytes, genuine frames that were changed, and frames sealed (or
// summed) rightly around contents that may be anything. Each frame is received as a device would, and comes to one outcome:
// read, or refused for one reason. A fault is a throw, a changed frame that is read, or contents that are taken for others.
import { RandomStream } from '../../sim/kernel/random.js';
import type { Cipher } from '../../src/link/cipher.js';
import { FRAME_REFUSALS, type FrameRefusal, openMessage, peek, readPairing } from '../../src/link/frames.js';
import { KIND_CODES, VERSION } from '../../src/link/layout.js';
import { drawBytes, pick } from './draw.js';
import { drawGenuine, SECURED } from './genuine.js';
import { toHex } from './hex.js';
import { drawHostile } from './hostile.js';

export interface FuzzCounts {
  readonly random: number;
  readonly mutated: number;
  readonly hostile: number;
}

export type Outcomes = Record<'read' | FrameRefusal, number>;

export interface FuzzReport {
  readonly random: Outcomes;
  readonly mutated: Outcomes;
  readonly hostile: Outcomes;
  /** What went wrong, the first of them. */
  readonly faults: readonly string[];
}

const MAX_FAULTS = 20;
const MAX_LENGTH = 300;
/** Of each kind, by its code. */
const LENGTHS: readonly (readonly [code: number, bytes: number])[] = [
  [1, 27],
  [2, 27],
  [3, 22],
  [4, 15],
  [5, 15],
  [16, 41],
  [17, 63],
  [18, 25],
  [19, 25],
  [20, 10],
];

export function fuzz(cipher: Cipher, counts: FuzzCounts, seed: number): FuzzReport {
  const faults: string[] = [];
  const campaign = (name: keyof FuzzCounts, one: (random: RandomStream) => Tried): Outcomes => {
    const random = RandomStream.named(seed, name);
    const outcomes = Object.fromEntries(['read', ...FRAME_REFUSALS].map((outcome) => [outcome, 0])) as Outcomes;
    for (let tried = 0; tried < counts[name]; tried++) {
      const { frame, due } = one(random);
      const fault = receiveAs(cipher, frame, due, outcomes);
      if (fault !== null && faults.length < MAX_FAULTS) faults.push(`${name} ${toHex(frame)}: ${fault}`);
    }
    return outcomes;
  };
  return {
    random: campaign('random', (random) => ({ frame: drawRandom(random), due: null })),
    mutated: campaign('mutated', (random) => ({ frame: drawMutated(cipher, random), due: null })),
    hostile: campaign('hostile', (random) => drawHostile(cipher, random)),
    faults,
  };
}

interface Tried {
  readonly frame: Uint8Array;
  /** The outcome that is due, as JSON; null where any refusal will do. */
  readonly due: string | null;
}

/** Counts the outcome of a frame; says what is wrong with it, or null. */
function receiveAs(cipher: Cipher, frame: Uint8Array, due: Tried['due'], outcomes: Outcomes): string | null {
  try {
    const outcome = receive(cipher, frame);
    outcomes[typeof outcome === 'string' ? outcome : 'read'] += 1;
    const told = JSON.stringify(outcome);
    const right = due === null ? typeof outcome === 'string' : told === due;
    return right ? null : `${told}, not ${due ?? 'refused'}`;
  } catch (error) {
    return String(error);
  }
}

/** As a device receives a frame: who it may be from, then what it says. */
function receive(cipher: Cipher, frame: Uint8Array): object | FrameRefusal {
  const before = frame.slice();
  const outside = peek(frame);
  const told =
    typeof outside === 'string' || outside.link !== 0 ? openMessage(cipher, SECURED, frame) : readPairing(frame);
  if (!before.every((byte, index) => byte === frame[index])) throw new Error('a frame was written to');
  if (typeof outside === 'string' && told !== outside) throw new Error(`${outside} from the outside, but ${told}`);
  return told;
}

/** Pure chance seldom gets past the first byte and the length: half are of a kind and its length, a quarter of a kind. */
function drawRandom(random: RandomStream): Uint8Array {
  const [code, bytes] = pick(random, LENGTHS);
  const lot = random.within(0, 3);
  const frame = drawBytes(random, lot < 2 ? bytes : random.within(0, MAX_LENGTH));
  if (lot < 3 && frame.length > 0) frame[0] = (code << 3) | VERSION;
  return frame;
}

/** A genuine frame, changed in some way until it is none. */
function drawMutated(cipher: Cipher, random: RandomStream): Uint8Array {
  const genuine = drawGenuine(cipher, random);
  const other = drawGenuine(cipher, random);
  for (;;) {
    const frame = pick(random, MUTATIONS)(random, genuine, other);
    if (!same(frame, genuine) && !same(frame, other)) return frame;
  }
}

type Mutation = (random: RandomStream, genuine: Uint8Array, other: Uint8Array) => Uint8Array;

const MUTATIONS: readonly Mutation[] = [
  (random, genuine) => {
    const frame = genuine.slice();
    for (let left = random.within(1, 8); left > 0; left--) {
      frame[random.within(0, frame.length - 1)]! ^= 1 << random.within(0, 7);
    }
    return frame;
  },
  (random, genuine) => {
    const frame = genuine.slice();
    frame[random.within(0, frame.length - 1)] = random.within(0, 255);
    return frame;
  },
  (random, genuine) => {
    const frame = genuine.slice();
    frame[0] = (pick(random, Object.values(KIND_CODES)) << 3) | VERSION;
    return frame;
  },
  (random, genuine) => {
    const from = random.within(0, genuine.length - 1);
    const cut = genuine.slice(from, random.within(from, genuine.length));
    return random.chance(1, 2) ? cut : genuine.slice(0, from);
  },
  (random, genuine) => Uint8Array.of(...genuine, ...drawBytes(random, random.within(1, 40))),
  (random, genuine, other) => {
    const at = random.within(0, genuine.length);
    return Uint8Array.of(...genuine.slice(0, at), ...other.slice(at));
  },
  (random, genuine) => {
    const at = random.within(0, genuine.length - 1);
    return Uint8Array.of(...genuine.slice(at), ...genuine.slice(0, at));
  },
];

function same(one: Uint8Array, other: Uint8Array): boolean {
  return one.length === other.length && one.every((byte, index) => byte === other[index]);
}
