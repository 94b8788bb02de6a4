// Somebody with a radio near one counter and one wearable: hears what they send, has no key, and sends bytes of their own
// (TAL-4). Knows of the frames what anybody may read: the header of kind and version, link, sequence.
import type { RandomStream } from '../kernel/random.js';
import { flipBits } from './radio.js';

export const ATTACKS = ['replay', 'alter', 'forge', 'flood'] as const;
export type Attack = (typeof ATTACKS)[number];

/** Kind and version 1, link 2, sequence 4. */
const HEADER_BYTES = 7;
const FIELDS = [
  [0, 1],
  [1, 3],
  [3, HEADER_BYTES],
] as const;
const SEQUENCE_AT = 3;

/** Frames that are remembered; the oldest is forgotten for the next. */
export const MAX_HEARD = 4096;
/** A forged frame's sequence lies so far beyond the newest at most. */
const MAX_AHEAD = 16;
const MAX_FLOOD_BYTES = 300;
const MAX_CHANGE_BYTES = 16;

export interface AirFrame {
  readonly bytes: Uint8Array;
  /** Identity of the device that it is meant for. */
  readonly to: number;
}

/** Plain data. heard is a ring in which frame number n (from 0) lies at n mod MAX_HEARD. */
export interface AttackerState {
  /** Identities of the two. */
  readonly counter: number;
  readonly wearable: number;
  readonly heard: AirFrame[];
  frames: number;
}

export function newAttacker(counter: number, wearable: number): AttackerState {
  return { counter, wearable, heard: [], frames: 0 };
}

/** Remembers a frame of the pair, sent to one of the two; what is too short to have a header is of no use. */
export function hear(state: AttackerState, { bytes, to }: AirFrame): void {
  if (bytes.length < HEADER_BYTES) return;
  state.heard[state.frames % MAX_HEARD] = { bytes: bytes.slice(), to };
  state.frames += 1;
}

/**
 * What is sent next. replay: a frame that was heard, as it was. alter: one that was heard, changed, or sent back to its
 * sender. forge: a header that could come next, with a body and a tag of chance. flood: anything. Null where that needs a
 * frame and none was heard.
 */
export function attack(state: AttackerState, how: Attack, random: RandomStream): AirFrame | null {
  if (how === 'flood') return flood(state, random);
  if (how === 'forge') return forge(newestTo(state, eitherOf(state, random)), random);
  if (state.heard.length === 0) return null;
  const frame = state.heard[random.within(0, state.heard.length - 1)]!;
  return how === 'replay' ? { ...frame, bytes: frame.bytes.slice() } : alter(state, frame, random);
}

function alter(state: AttackerState, { bytes, to }: AirFrame, random: RandomStream): AirFrame {
  const size = random.within(1, MAX_CHANGE_BYTES);
  switch (random.within(0, 4)) {
    case 0:
      return { bytes: flipBits(bytes, random), to };
    case 1: {
      const [from, end] = FIELDS[random.within(0, FIELDS.length - 1)]!;
      return { bytes: changed(bytes, random.within(from, end - 1), random), to };
    }
    case 2:
      return { bytes: changed(bytes, random.within(0, bytes.length - 1), random), to };
    case 3:
      return { bytes: random.chance(1, 2) ? bytes.slice(0, -size) : joined(bytes, randomBytes(size, random)), to };
    default:
      return { bytes: bytes.slice(), to: to === state.counter ? state.wearable : state.counter };
  }
}

function forge(newest: AirFrame | null, random: RandomStream): AirFrame | null {
  if (newest === null) return null;
  const { bytes, to } = newest;
  const forged = joined(bytes.slice(0, HEADER_BYTES), randomBytes(bytes.length - HEADER_BYTES, random));
  const sequence = new DataView(forged.buffer, SEQUENCE_AT);
  sequence.setUint32(0, sequence.getUint32(0) + random.within(1, MAX_AHEAD));
  return { bytes: forged, to };
}

/** Half of it is bytes of chance, half a true frame of a kind and a version of chance. */
function flood(state: AttackerState, random: RandomStream): AirFrame {
  const to = eitherOf(state, random);
  const newest = random.chance(1, 2) ? newestTo(state, to) : null;
  if (newest !== null) return { bytes: changed(newest.bytes, 0, random), to };
  return { bytes: randomBytes(random.within(0, MAX_FLOOD_BYTES), random), to };
}

function eitherOf({ counter, wearable }: AttackerState, random: RandomStream): number {
  return random.chance(1, 2) ? counter : wearable;
}

function newestTo({ heard, frames }: AttackerState, to: number): AirFrame | null {
  for (let back = 1; back <= heard.length; back++) {
    const frame = heard[(frames - back) % MAX_HEARD]!;
    if (frame.to === to) return frame;
  }
  return null;
}

/** A copy with another value in one byte. */
function changed(bytes: Uint8Array, at: number, random: RandomStream): Uint8Array {
  const copy = bytes.slice();
  copy[at]! ^= random.within(1, 255);
  return copy;
}

function joined(first: Uint8Array, second: Uint8Array): Uint8Array {
  const bytes = new Uint8Array(first.length + second.length);
  bytes.set(first);
  bytes.set(second, first.length);
  return bytes;
}

function randomBytes(length: number, random: RandomStream): Uint8Array {
  return Uint8Array.from({ length }, () => random.within(0, 255));
}
