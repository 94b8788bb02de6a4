import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RandomStream } from '../../../sim/kernel/random.js';
import {
  type AirFrame,
  ATTACKS,
  type Attack,
  type AttackerState,
  attack,
  hear,
  MAX_HEARD,
  newAttacker,
} from '../../../sim/radio/attacker.js';
import { frameBytes, HEADER_BITS, TALLY_BITS } from '../../../src/link/layout.js';

const COUNTER = 3;
const WEARABLE = 9;
const FRAME_BYTES = frameBytes(TALLY_BITS);
const HEADER_BYTES = Object.values(HEADER_BITS).reduce((sum, bits) => sum + bits, 0) / 8;

/** Frame number n of the pair: odd ones go to the counter, and no two are alike or one change apart. */
function frame(n: number): AirFrame {
  const bytes = new Uint8Array(FRAME_BYTES).fill(n % 251, HEADER_BYTES);
  bytes.set([0x08, 0xab, 0xcd, 0, 0, n >> 8, n & 255]);
  return { bytes, to: n % 2 === 0 ? WEARABLE : COUNTER };
}

function listener(frames: number): AttackerState {
  const state = newAttacker(COUNTER, WEARABLE);
  for (let n = 0; n < frames; n++) hear(state, frame(n));
  return state;
}

function sent(state: AttackerState, how: Attack, times: number, seed = 5): AirFrame[] {
  const random = RandomStream.named(seed, 'attack');
  return Array.from({ length: times }, () => attack(state, how, random)).filter((made) => made !== null);
}

function key({ bytes, to }: AirFrame): string {
  return `${to} ${Array.from(bytes).join(' ')}`;
}

function sequenceOf({ bytes }: AirFrame): number {
  return new DataView(bytes.buffer).getUint32(3);
}

describe('the attacker', () => {
  it('can only flood where nothing was heard, or nothing with a header', () => {
    const state = newAttacker(COUNTER, WEARABLE);
    hear(state, { bytes: new Uint8Array(HEADER_BYTES - 1), to: COUNTER });
    for (const how of ATTACKS) expect(sent(state, how, 20)).toHaveLength(how === 'flood' ? 20 : 0);
  });

  it('remembers the newest frames and no more', () => {
    const state = listener(MAX_HEARD + 100);
    expect(state.heard).toHaveLength(MAX_HEARD);
    const replayed = sent(state, 'replay', 20_000).map(sequenceOf);
    expect(replayed.reduce((low, n) => Math.min(low, n))).toBeGreaterThanOrEqual(100);
    expect(new Set(replayed).size).toBeGreaterThan(MAX_HEARD * 0.98);
    expect(replayed).toContain(MAX_HEARD + 99);
  });

  it('keeps bytes of its own', () => {
    const state = newAttacker(COUNTER, WEARABLE);
    const { bytes, to } = frame(1);
    hear(state, { bytes, to });
    bytes.fill(0);
    for (const how of ATTACKS) for (const made of sent(state, how, 50)) made.bytes.fill(0);
    expect(sent(state, 'replay', 1)).toEqual([frame(1)]);
  });

  it('replays what was heard as it was, to whom it was meant for', () => {
    const heard = new Set(Array.from({ length: 50 }, (_, n) => key(frame(n))));
    const replayed = sent(listener(50), 'replay', 1000).map(key);
    expect(new Set(replayed)).toEqual(heard);
  });

  it('alters each frame: none is what was heard, and some go back to their sender unchanged', () => {
    const frames = Array.from({ length: 50 }, (_, n) => frame(n));
    const heard = new Set(frames.map(key));
    const back = new Set(frames.map(({ bytes, to }) => key({ bytes, to: COUNTER + WEARABLE - to })));
    const altered = sent(listener(50), 'alter', 3000);
    expect(altered).toHaveLength(3000);
    for (const made of altered) expect(heard.has(key(made))).toBe(false);
    expect(altered.filter((made) => back.has(key(made))).length).toBeGreaterThan(400);
    const lengths = new Set(altered.map(({ bytes }) => bytes.length));
    for (let change = -16; change <= 16; change++) expect(lengths).toContain(FRAME_BYTES + change);
  });

  it('alters every byte of the header alone, every byte after it, and several at once', () => {
    const seen = new Set<number>();
    let scattered = 0;
    for (const { bytes, to } of sent(listener(1), 'alter', 3000)) {
      if (to !== WEARABLE || bytes.length !== FRAME_BYTES) continue;
      const changed = [...bytes.keys()].filter((at) => bytes[at] !== frame(0).bytes[at]);
      if (changed.length === 1) seen.add(changed[0]!);
      else scattered += 1;
    }
    expect(scattered).toBeGreaterThan(300);
    expect(seen.size).toBe(FRAME_BYTES);
  });

  it('forges a header that could come next to either of the two, with a body of chance', () => {
    const forged = sent(listener(50), 'forge', 1000);
    const bodies = new Set(forged.map(({ bytes }) => bytes.slice(HEADER_BYTES).join(' ')));
    expect(bodies.size).toBe(1000);
    for (const made of forged) {
      const newest = made.to === WEARABLE ? 48 : 49;
      expect(made.bytes.subarray(0, 3)).toEqual(frame(0).bytes.subarray(0, 3));
      expect(made.bytes).toHaveLength(FRAME_BYTES);
      expect(sequenceOf(made)).toBeGreaterThan(newest);
      expect(sequenceOf(made)).toBeLessThanOrEqual(newest + 16);
    }
    expect(new Set(forged.map(({ to }) => to))).toEqual(new Set([COUNTER, WEARABLE]));
  });

  it('forges what comes next to the newest of all that it ever heard', () => {
    for (const made of sent(listener(MAX_HEARD + 100), 'forge', 50)) {
      expect(sequenceOf(made)).toBeGreaterThan(MAX_HEARD + 97);
    }
  });

  it('forges past the last sequence', () => {
    const state = newAttacker(COUNTER, WEARABLE);
    const { bytes, to } = frame(1);
    bytes.fill(255, 3, HEADER_BYTES);
    hear(state, { bytes, to });
    for (const made of sent(state, 'forge', 50)) expect(sequenceOf(made)).toBeLessThan(16);
  });

  it('floods with every length, and with true frames of every other kind and version', () => {
    const flooded = sent(listener(50), 'flood', 10_000);
    const lengths = new Set(flooded.map(({ bytes }) => bytes.length));
    for (let length = 0; length <= 300; length++) expect(lengths).toContain(length);
    expect(Math.max(...lengths)).toBe(300);
    const firsts = flooded.filter((made) => key(made).endsWith(' 48 48 48 48') || key(made).endsWith(' 49 49 49 49'));
    expect(new Set(firsts.map(({ bytes }) => bytes[0])).size).toBe(255);
  });

  it('goes on alike from a copy of its state, and changes nothing in it by sending', () => {
    fc.assert(
      fc.property(fc.constantFrom(...ATTACKS), fc.nat(60), fc.nat(), (how, frames, seed) => {
        const state = listener(frames);
        const copy = structuredClone(state);
        const made = sent(state, how, 20, seed);
        expect(state).toEqual(copy);
        expect(sent(copy, how, 20, seed)).toEqual(made);
      }),
    );
  });
});
