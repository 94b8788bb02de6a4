// Genuine frames of one link and of pairings, drawn from a seeded stream.
import type { RandomStream } from '../../sim/kernel/random.js';
import type { Cipher } from '../../src/link/cipher.js';
import { type Secured, sealMessage, writePairing } from '../../src/link/frames.js';
import { ALERT_LEVELS, REFUSE_REASONS, TALLY_FLAGS } from '../../src/link/messages.js';
import type { ClearMessage, SealedMessage } from '../../src/link/pairing-messages.js';
import { drawBytes, drawNumber, pick } from './draw.js';
import { counting } from './hex.js';

export const SECURED: Secured = { key: counting(0xa0, 0xaf), session: 12 };

const ALL_FLAGS = Object.values(TALLY_FLAGS).reduce((all, flag) => all | flag, 0);

/** Where a frame belongs: its key, and the numbers and names in it. */
export interface Place {
  readonly secured: Secured;
  readonly link: number;
  readonly sequence: number;
  readonly counter: number;
  readonly wearable: number;
}

/** A frame of a link, or of a pairing, in some place unless in a given one. */
export function drawGenuine(cipher: Cipher, random: RandomStream, place = drawPlace(random)): Uint8Array {
  return random.chance(2, 3)
    ? sealMessage(cipher, place.secured, drawSealed(random, place))
    : writePairing(drawClear(random, place));
}

function drawPlace(random: RandomStream): Place {
  return {
    secured: SECURED,
    link: random.within(1, 0xffff),
    sequence: random.within(1, 0xffff_ffff),
    counter: random.within(1, 0xffff),
    wearable: random.within(1, 0xffff),
  };
}

function drawSealed(random: RandomStream, { link, sequence, counter, wearable }: Place): SealedMessage {
  switch (random.within(0, 3)) {
    case 0: {
      const triggerWindows = drawNumber(random, 28);
      return {
        frame: 'tally',
        link,
        sequence,
        dose: drawNumber(random, 52),
        triggerWindows,
        unratedWindows: Math.min(drawNumber(random, 28), triggerWindows),
        magnitudeTenths: random.chance(1, 4) ? 0 : random.within(5, 500),
        cell: random.within(0, 3),
        flags: random.within(0, ALL_FLAGS),
      };
    }
    case 1:
      return {
        frame: 'report',
        link,
        sequence,
        shortBursts: drawNumber(random, 16),
        powerLosses: drawNumber(random, 16),
        unclaimedDose: drawNumber(random, 52),
        unclaimedWindows: drawNumber(random, 28),
      };
    case 2:
      return {
        frame: 'ack',
        link,
        sequence,
        highest: drawNumber(random, 32),
        highestReport: drawNumber(random, 32),
        level: random.within(0, ALERT_LEVELS.length - 1),
        leftTenths: drawNumber(random, 16),
        closed: random.chance(1, 2),
      };
    default:
      return { frame: 'accept', link, counter, wearable, by: pick(random, ['counter', 'wearable']) };
  }
}

function drawClear(random: RandomStream, { counter, wearable }: Place): ClearMessage {
  const identities = { counter, wearable };
  const frame = pick(random, ['hello', 'answer', 'nonce', 'reveal', 'refuse'] as const);
  switch (frame) {
    case 'hello':
      return { frame, ...identities, publicKey: drawBytes(random, 32) };
    case 'answer':
      return {
        frame,
        ...identities,
        link: random.within(1, 0xffff),
        session: random.within(1, 0xffff_ffff),
        publicKey: drawBytes(random, 32),
        commitment: drawBytes(random, 16),
      };
    case 'refuse':
      return { frame, ...identities, reason: pick(random, REFUSE_REASONS) };
    default:
      return { frame, ...identities, nonce: drawBytes(random, 16) };
  }
}
