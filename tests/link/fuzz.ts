// Frames that nobody should send, by the thousand: random bytes, genuine frames that were changed, and frames sealed (or
// summed) rightly around contents that may be anything. Each frame is received as a device would, and comes to one outcome:
// read, or refused for one reason. A fault is a throw, a changed frame that is read, or contents that are taken for others.
import { RandomStream } from '../../sim/kernel/random.js';
import type { Cipher } from '../../src/link/cipher.js';
import { FRAME_REFUSALS, type FrameRefusal, openMessage, peek, readPairing } from '../../src/link/frames.js';
import { drawGenuine, SECURED } from './genuine.js';
import { toHex } from './hex.js';
import { drawHostile } from './hostile.js';
import { drawMutated, drawRandom } from './wild.js';

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
    mutated: campaign('mutated', (random) => ({
      frame: drawMutated(random, () => drawGenuine(cipher, random)),
      due: null,
    })),
    hostile: campaign('hostile', (random) => {
      const { frame, due } = drawHostile(cipher, random);
      return { frame, due: JSON.stringify(due) };
    }),
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
