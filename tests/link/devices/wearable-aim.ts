// Hostile frames that are meant for a wearable: sealed mostly under the key of the link that they name, with sequences and
// sums around those that it knows.
import type { RandomStream } from '../../../sim/kernel/random.js';
import { largest } from '../../../src/link/layout.js';
import { drawBytes, pick } from '../draw.js';
import { type Aim, drawField } from '../hostile.js';
import { USELESS_KEYS } from './keys.js';
import { type Entry, mostDose } from './wearable-ledger.js';
import type { WearableRules } from './wearable-rules.js';

/** Tallies above all; then what else a counter says, and what only a wearable does. */
const KINDS = [1, 1, 1, 1, 1, 2, 2, 3, 4, 4, 5];
/** Of somebody in the middle of a pairing who can answer and reveal. */
const MIDDLE = { publicKey: new Uint8Array(32).fill(0x55), nonce: new Uint8Array(16).fill(0x66) };
const STRANGER = { key: new Uint8Array(16).fill(0x77), session: 1 };
const UNKNOWN_LINK = 60_000;

/** One frame in wrongOneIn is sealed with another key. */
export function aimAtWearable(rules: WearableRules, wrongOneIn: number, random: RandomStream): Aim {
  const entry = pick(random, rules.entries);
  const { pending, peer, rig } = rules;
  const ofPairing = pending !== null && random.chance(1, 4);
  const own = ofPairing ? pending : entry.secured;
  const other = random.chance(1, 2) ? STRANGER : pick(random, rules.entries).secured;
  const link = ofPairing ? peer!.told.link : entry.link;
  return {
    secured: random.chance(1, wrongOneIn) ? other : own,
    kinds: ofPairing ? [4, 4, 4, 5, 1] : KINDS,
    link: () =>
      random.chance(9, 10) ? link : pick(random, [0, UNKNOWN_LINK, ...rules.entries.map((kept) => kept.link)]),
    sequence: (_, kind) => drawSequence(random, kind, entry),
    field: (_, field, bits) => {
      switch (field) {
        case 'counter':
          return random.chance(7, 8)
            ? peer !== null && ofPairing
              ? peer.told.id
              : entry.counter
            : random.within(0, 4);
        case 'wearable':
          return random.chance(7, 8) ? rig.id : random.within(0, 0xffff);
        default:
          return drawTold(random, field, bits, entry, rig.site.nowMs);
      }
    },
    bytes: (_, field, length) => drawPairingBytes(random, rules, field, length),
  };
}

/** Of a frame of the pairing that is open, spoken by the one that was touched, or nearly. */
export function aimAtPairing(rules: WearableRules, random: RandomStream): Aim {
  const { told } = rules.peer!;
  return {
    secured: STRANGER,
    kinds: KINDS,
    link: () => told.link,
    sequence: () => 0,
    field: (_, field, bits) => {
      if (random.chance(1, 12)) return drawField(random, field, bits);
      switch (field) {
        case 'counter':
          return told.id;
        case 'wearable':
          return rules.rig.id;
        case 'link':
          return random.chance(3, 4) ? told.link : pick(random, rules.entries).link;
        case 'session':
          return told.session;
        default:
          return random.within(0, 3);
      }
    },
    bytes: (_, field, length) => drawPairingBytes(random, rules, field, length),
  };
}

function drawSequence(random: RandomStream, kind: number, entry: Entry): number {
  if (random.chance(kind >= 4 ? 19 : 1, 20)) return 0;
  if (random.chance(1, 200)) return pick(random, [1, 0x7fff_ffff, 0xffff_fffe, 0xffff_ffff]);
  const highest = kind === 2 ? entry.highestReport : entry.highest;
  return Math.min(Math.max(0, highest + random.within(-2, 5)), largest(32));
}

/** Sums mostly grow by as much as a tool may make, or by a little more. */
function drawTold(random: RandomStream, field: string, bits: number, entry: Entry, nowMs: number): number {
  if (random.chance(1, 8)) return drawField(random, field, bits);
  switch (field) {
    case 'dose':
      return within(pick(random, dosesAround(random, entry, nowMs)), bits);
    case 'triggerWindows':
      return within(entry.triggerWindows + random.within(-5, 300), bits);
    case 'unratedWindows':
      return within(entry.unratedWindows + random.within(-5, 5), bits);
    case 'magnitudeTenths':
      return random.chance(1, 4) ? 0 : random.within(5, 500);
    case 'reserved':
      return 0;
    case 'flags':
      return random.within(0, 255);
    default:
      return drawField(random, field, bits);
  }
}

function dosesAround(random: RandomStream, entry: Entry, nowMs: number): number[] {
  const most = mostDose(entry, nowMs);
  const some = entry.dose + random.within(0, 1_000_000_000);
  if (most === Infinity) return [entry.dose - 1, some, some, largest(52)];
  return [entry.dose - 1, entry.dose, some, some, most, most + 1, 2 * most];
}

function within(value: number, bits: number): number {
  return Math.min(Math.max(0, value), largest(bits));
}

function drawPairingBytes(random: RandomStream, rules: WearableRules, field: string, length: number): Uint8Array {
  const { peer } = rules;
  if (peer === null || random.chance(1, 4)) return drawBytes(random, length);
  const { told } = peer;
  switch (field) {
    case 'publicKey':
      return pick(random, [told.publicKey, told.publicKey, told.publicKey, MIDDLE.publicKey, ...USELESS_KEYS]);
    case 'commitment':
      return random.chance(3, 4)
        ? rules.commitmentTo(told.publicKey, told.nonce)
        : rules.commitmentTo(MIDDLE.publicKey, MIDDLE.nonce);
    default:
      return pick(random, [told.nonce, told.nonce, MIDDLE.nonce]);
  }
}
