// Hostile frames that are meant for a counter: sealed mostly under the key of the link that they name, with sequences around
// those that it has heard and told.
import type { RandomStream } from '../../../sim/kernel/random.js';
import { largest } from '../../../src/link/layout.js';
import { framesBy } from '../../rig/site.js';
import { drawBytes, pick } from '../draw.js';
import { type Aim, drawField } from '../hostile.js';
import type { CounterRules, Kept } from './counter-rules.js';
import { USELESS_KEYS } from './keys.js';

/** Acknowledgements above all; then what else a wearable says, and what only a counter does. */
const KINDS = [3, 3, 3, 3, 3, 3, 4, 5, 5, 1, 2];
const STRANGER = { key: new Uint8Array(16).fill(0x77), session: 1 };
const UNKNOWN_LINK = 60_000;
const NOBODYS = new Uint8Array(32).fill(0x55);

/** One frame in wrongOneIn is sealed with another key. */
export function aimAtCounter(rules: CounterRules, wrongOneIn: number, random: RandomStream): Aim {
  const { pending, peer, kept, rig } = rules;
  const ofPairing = pending !== null && (kept.length === 0 || random.chance(1, 3));
  const session = ofPairing || kept.length === 0 ? null : pick(random, kept);
  const link = (ofPairing ? rules.pendingLink : session?.link) ?? UNKNOWN_LINK;
  const own = (ofPairing ? pending : session?.secured) ?? STRANGER;
  const other = kept.length === 0 || random.chance(1, 2) ? STRANGER : pick(random, kept).secured;
  const links = [0, UNKNOWN_LINK, ...kept.map((one) => one.link)];
  return {
    secured: random.chance(1, wrongOneIn) ? other : own,
    kinds: ofPairing ? [5, 5, 5, 4, 3] : KINDS,
    link: () => (random.chance(9, 10) ? link : pick(random, links)),
    sequence: (_, kind) => drawSequence(random, kind, session),
    field: (_, field, bits) => {
      if (random.chance(1, 20)) return drawField(random, field, bits);
      switch (field) {
        case 'counter':
          return rig.id;
        case 'wearable':
          return peer?.told.id ?? 0;
        case 'highest':
        case 'highestReport':
          return drawHighest(random, field, session, lastTold(rules));
        case 'reserved':
          return 0;
        case 'closed':
          return random.chance(1, 10) ? 1 : 0;
        case 'level':
          return random.within(0, 4);
        case 'reason':
          return random.within(0, 3);
        default:
          return drawField(random, field, bits);
      }
    },
    bytes: (_, field, length) => {
      if (peer === null || random.chance(1, 4)) return drawBytes(random, length);
      if (field === 'publicKey')
        return pick(random, [peer.told.publicKey, peer.told.publicKey, NOBODYS, ...USELESS_KEYS]);
      return field === 'nonce' && random.chance(3, 4) ? peer.told.nonce : drawBytes(random, length);
    },
  };
}

function drawSequence(random: RandomStream, kind: number, session: Kept | null): number {
  if (random.chance(kind >= 4 ? 19 : 1, 20)) return 0;
  if (random.chance(1, 100)) return pick(random, [1, 0x7fff_ffff, 0xffff_fffe, 0xffff_ffff]);
  return Math.min(Math.max(0, (session?.heard ?? 0) + random.within(-2, 5)), largest(32));
}

/** told: the sequence of the last tally. */
function drawHighest(
  random: RandomStream,
  field: 'highest' | 'highestReport',
  session: Kept | null,
  told: number,
): number {
  if (session?.sealed) {
    const { tally, report } = session.sealed;
    return Math.max(0, (field === 'highest' ? tally : report) + random.within(-3, 1));
  }
  return pick(random, [0, Math.max(0, (session?.first ?? 1) - 1), told, random.within(0, told)]);
}

function lastTold({ rig }: CounterRules): number {
  return framesBy(rig.site, rig.id, 'tally').at(-1)?.message.sequence ?? 0;
}
