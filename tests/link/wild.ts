// Bytes that nobody should send: random ones, and genuine frames that were changed until they are none.
import type { RandomStream } from '../../sim/kernel/random.js';
import { KIND_CODES, VERSION } from '../../src/link/layout.js';
import { drawBytes, pick } from './draw.js';

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

/** Pure chance seldom gets past the first byte and the length: half are of a kind and its length, a quarter of a kind. */
export function drawRandom(random: RandomStream): Uint8Array {
  const [code, bytes] = pick(random, LENGTHS);
  const lot = random.within(0, 3);
  const frame = drawBytes(random, lot < 2 ? bytes : random.within(0, MAX_LENGTH));
  if (lot < 3 && frame.length > 0) frame[0] = (code << 3) | VERSION;
  return frame;
}

/** A genuine frame, changed in some way until it is none. */
export function drawMutated(random: RandomStream, drawGenuine: () => Uint8Array): Uint8Array {
  const genuine = drawGenuine();
  const other = drawGenuine();
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
