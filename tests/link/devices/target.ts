// A device under fire: what every frame must come to is said by rules that stand apart from the device, and what it stands
// for is compared before and after.
import type { RandomStream } from '../../../sim/kernel/random.js';
import type { FrameRefusal, Secured } from '../../../src/link/frames.js';
import type { Message } from '../../../src/link/pairing-messages.js';
import type { Refusal } from '../../../src/port/refusals.js';
import type { CounterRig } from '../../rig/counter-rig.js';
import type { WearableRig } from '../../rig/wearable-rig.js';

export type Rig = CounterRig | WearableRig;

/** A frame that is rightly sealed under somebody's key, or rightly summed. */
export interface Shot {
  readonly frame: Uint8Array;
  /** What it says, or why it is none. */
  readonly due: Message | FrameRefusal;
  /** Null for a frame of a pairing. */
  readonly sealedBy: Secured | null;
}

/** What a device says to a frame. It may be throttled only where it would have to open the frame. */
export interface Verdict {
  readonly reason: Refusal | '';
  readonly opens: boolean;
}

export interface Target {
  readonly rig: Rig;
  /** Names of links that it knows. */
  names(): readonly number[];
  /** A frame as somebody could truly send it now. */
  drawGenuine(random: RandomStream): Uint8Array;
  drawHostile(random: RandomStream): Shot;
  /** Time goes on, and people and peers do what they may. Says what is wrong with what came of it, or null. */
  stir(random: RandomStream): string | null;
  /** What is due for a frame. */
  weigh(shot: Shot): Verdict;
  /** A frame was taken: what is due has come of it, and nothing else; says what has not, or null. */
  follow(shot: Shot): string | null;
  /** What came of frames and of people, by name: how often. */
  effects(): Readonly<Record<string, number>>;
  /** What the device counts and keeps is what it should be; says what is not, or null. */
  check(): string | null;
}

/** Of kinds, from README.md; those of a pairing begin with the hello. */
export const CODES = { tally: 1, report: 2, ack: 3, counterAccept: 4, wearableAccept: 5, hello: 16, nonce: 18 };

/** Kind, link and sequence, from the table of README.md. */
export function headerOf(frame: Uint8Array): { kind: number; link: number; sequence: number } {
  const view = new DataView(frame.buffer, frame.byteOffset, frame.length);
  return { kind: frame[0]! >>> 3, link: view.getUint16(1), sequence: view.getUint32(3) };
}

/** How many frames are sealed with a wrong key: hardly any, or so many that the device is throttled. */
export const WRONG_ONE_IN = [2, 10, 30];

/** An erase is over by then, and what waited for it is written. */
export const SETTLED_MS = 200;
const HOUR_MS = 3_600_000;

/** Mostly moments; now and then the minute of a throttle, and seldom hours. */
export function drawPauseMs(random: RandomStream): number {
  if (random.chance(1, 200)) return 7 * HOUR_MS;
  if (random.chance(1, 8)) return random.within(50_000, 70_000);
  return random.chance(1, 2) ? random.within(0, 300) : random.within(300, 12_000);
}

export function isSame(one: Uint8Array, other: Uint8Array): boolean {
  return one.length === other.length && one.every((byte, index) => byte === other[index]);
}

export function isKey(one: Secured | null, other: Secured | null): boolean {
  return one !== null && other !== null && one.session === other.session && isSame(one.key, other.key);
}
