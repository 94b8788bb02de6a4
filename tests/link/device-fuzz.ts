// Frames that nobody should send, at real devices: a counter with an open and a sealed session, and a wearable with two
// counters, in every state of a pairing, while time goes on. Random and changed frames change nothing and are counted once
// each; frames rightly sealed, or summed, around hostile contents come to what the rules allow, and to nothing else.
import { RandomStream } from '../../sim/kernel/random.js';
import type { Cipher } from '../../src/link/cipher.js';
import { REFUSALS, type Refusal } from '../../src/port/refusals.js';
import { FULL_MV } from '../rig/device-rig.js';
import { CounterTarget } from './devices/counter-target.js';
import { differenceOf, standingOf } from './devices/standing.js';
import { TagWatch } from './devices/tag-watch.js';
import type { Shot, Target } from './devices/target.js';
import { WearableTarget } from './devices/wearable-target.js';
import { pick } from './draw.js';
import type { FuzzCounts } from './fuzz.js';
import { toHex } from './hex.js';
import { drawMutated, drawRandom } from './wild.js';

export const DEVICES = ['counter', 'wearable'] as const;
export type DeviceName = (typeof DEVICES)[number];
export type DeviceOutcomes = Record<'taken' | Refusal, number>;

export interface DeviceFuzzReport {
  readonly outcomes: Readonly<Record<DeviceName, Readonly<Record<keyof FuzzCounts, DeviceOutcomes>>>>;
  /** What rightly came of hostile frames, and of people in between: how often each. */
  readonly effects: Readonly<Record<string, number>>;
  /** What went wrong, the first of them. */
  readonly faults: readonly string[];
}

const MAX_FAULTS = 20;
/** Frames that one device gets before another one is taken; after one in how many something else happens. */
const WILD = { frames: 1000, stirOneIn: [10, 30, 300] };
const HOSTILE = { frames: 500, stirOneIn: [4, 10, 100] };

/** Each device gets so many frames. */
export function fuzzDevices(cipher: Cipher, counts: FuzzCounts, seed: number): DeviceFuzzReport {
  const faults: string[] = [];
  const effects: Record<string, number> = {};
  const outcomesOf = (device: DeviceName) => {
    const campaign = (name: keyof FuzzCounts) => {
      const random = RandomStream.named(seed, `${device} ${name}`);
      const fired = new Campaign(cipher, device, name, random).run(counts[name]);
      faults.push(...fired.faults.map((fault) => `${device}, ${name}: ${fault}`));
      for (const [effect, often] of Object.entries(fired.effects)) effects[effect] = (effects[effect] ?? 0) + often;
      return fired.outcomes;
    };
    return { random: campaign('random'), mutated: campaign('mutated'), hostile: campaign('hostile') };
  };
  return { outcomes: { counter: outcomesOf('counter'), wearable: outcomesOf('wearable') }, effects, faults };
}

class Campaign {
  readonly outcomes = Object.fromEntries(['taken', ...REFUSALS].map((outcome) => [outcome, 0])) as DeviceOutcomes;
  readonly effects: Record<string, number> = {};
  readonly faults: string[] = [];

  constructor(
    private readonly cipher: Cipher,
    private readonly device: DeviceName,
    private readonly name: keyof FuzzCounts,
    private readonly random: RandomStream,
  ) {}

  run(frames: number): this {
    const { frames: most } = this.name === 'hostile' ? HOSTILE : WILD;
    for (let left = frames; left > 0 && this.faults.length < MAX_FAULTS; left -= most) {
      this.episode(Math.min(left, most));
    }
    return this;
  }

  /** A device that has gone wrong gets no more frames. */
  private episode(frames: number): void {
    const { random, cipher, device, name, effects } = this;
    const target = device === 'counter' ? new CounterTarget(cipher, random) : new WearableTarget(cipher, random);
    const stirOneIn = pick(random, (name === 'hostile' ? HOSTILE : WILD).stirOneIn);
    const watch = new TagWatch();
    let fault: string | null = null;
    for (let shot = 0; shot < frames && fault === null; shot++) {
      if (random.chance(1, stirOneIn)) fault = this.stir(target, watch);
      fault ??= this.fire(target, watch);
    }
    if (fault !== null) this.faults.push(fault);
    for (const [effect, often] of Object.entries(target.effects())) effects[effect] = (effects[effect] ?? 0) + often;
  }

  private stir(target: Target, watch: TagWatch): string | null {
    const starts = target.rig.recovered.length;
    try {
      return target.stir(this.random) ?? target.check();
    } catch (error) {
      return thrown(error);
    } finally {
      if (target.rig.recovered.length > starts) watch.restart();
    }
  }

  private fire(target: Target, watch: TagWatch): string | null {
    const shot = this.name === 'hostile' ? target.drawHostile(this.random) : null;
    const frame = shot?.frame ?? this.drawWild(target);
    try {
      const fault = this.hear(target, watch, frame, shot);
      return fault === null ? null : `${toHex(frame)}: ${fault}`;
    } catch (error) {
      return `${toHex(frame)}: ${thrown(error)}`;
    }
  }

  private drawWild(target: Target): Uint8Array {
    const { random, name } = this;
    if (name === 'mutated') return drawMutated(random, () => target.drawGenuine(random));
    const frame = drawRandom(random);
    if (frame.length < 3 || random.chance(1, 2)) return frame;
    const link = pick(random, target.names());
    frame[1] = link >>> 8;
    frame[2] = link;
    return frame;
  }

  /** One frame at a device; says what is wrong with what came of it, or null. */
  private hear(target: Target, watch: TagWatch, frame: Uint8Array, shot: Shot | null): string | null {
    const { rig } = target;
    const verdict = shot === null ? null : target.weigh(shot);
    // Whatever reaches a device has it draw its display anew.
    rig.cell(FULL_MV);
    const before = standingOf(rig);
    const refused = rig.refused.length;
    rig.hear(frame);
    const [reason, ...more] = rig.refused.slice(refused);
    this.outcomes[reason ?? 'taken'] += 1;
    if (more.length > 0) return `refused as ${reason} and as ${more}`;
    const unlawful = watch.note(rig.site.nowMs, reason ?? '');
    if (unlawful !== null) return unlawful;
    if (verdict === null && reason === undefined) return 'taken';
    if (verdict !== null && (reason ?? '') !== verdict.reason && !(reason === 'throttled' && verdict.opens)) {
      return `${reason ?? 'taken'}, not ${verdict.reason || 'taken'}`;
    }
    if (reason === undefined) return target.follow(shot!) ?? target.check();
    const after = LEAVES_A_MARK.has(reason) ? before : standingOf(rig);
    if (before !== after) return `refused as ${reason}, and yet ${differenceOf(before, after)}`;
    return target.check();
  }
}

/** An implausible tally marks the shift incomplete (TAL-7); a broken commitment ends the pairing (PAI-2). */
const LEAVES_A_MARK: ReadonlySet<Refusal> = new Set(['implausible', 'commitment']);

function thrown(error: unknown): string {
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}
