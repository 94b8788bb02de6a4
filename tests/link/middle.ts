// A man in the middle of a pairing (PAI-2): he is the counter to the wearable and the wearable to the counter, with a key of his
// own towards each, and has won where both show the same four digits. He completes either side first, so that he knows its
// digits when he deals with the other; and where his one guess is wrong he breaks every rule that might save him.
import { RandomStream } from '../../sim/kernel/random.js';
import { CHIP } from '../../src/link/cipher.js';
import { readPairing, writePairing } from '../../src/link/frames.js';
import { commitmentOf, comparisonDigits } from '../../src/link/pairing.js';
import type { ClearMessage } from '../../src/link/pairing-messages.js';
import { drawBytes } from './draw.js';
import { CounterSide, type Rule, WearableSide } from './pairing-sides.js';

const ORDERS = ['wearable first', 'counter first'] as const;
type Order = (typeof ORDERS)[number];

export interface Success {
  readonly attack: number;
  readonly order: Order;
  readonly onCounter: number;
  readonly onWearable: number;
}

export interface AttackReport {
  readonly attacks: Readonly<Record<Order, number>>;
  /** Attacks in which the wearable showed no digits: it had been revealed what nobody had committed to. */
  readonly endedByWearable: number;
  readonly successes: readonly Success[];
}

export interface AttackOptions {
  readonly seed: number;
  readonly attacks: number;
  /** How many keys or nonces he tries, once the first guess was wrong, for one that makes the digits fit. */
  readonly tries: number;
  /** A rule that the devices do not keep. */
  readonly without?: Rule;
}

const IDS = { counter: 3, wearable: 9 };
const OPENS = { link: 0x1234, session: 7 };

export function attackPairings({ seed, attacks, tries, without }: AttackOptions): AttackReport {
  const counts: Record<Order, number> = { 'wearable first': 0, 'counter first': 0 };
  const successes: Success[] = [];
  let endedByWearable = 0;
  for (let attack = 0; attack < attacks; attack++) {
    const random = RandomStream.named(seed, `attack ${attack}`);
    const order = ORDERS[random.within(0, 1)]!;
    const counter = new CounterSide(random, IDS, OPENS, without ?? null);
    const wearable = new WearableSide(random, IDS, without ?? null);
    new Middleman(random, counter, wearable, tries).attack(order);
    counts[order] += 1;
    const [onCounter, onWearable] = [counter.digits, wearable.digits];
    if (onCounter === null) throw new Error('the counter shows no digits, so that the middleman has wasted his guess');
    if (onWearable === null) endedByWearable += 1;
    else if (onCounter === onWearable) successes.push({ attack, order, onCounter, onWearable });
  }
  return { attacks: counts, endedByWearable, successes };
}

/** Who he is towards one of the two: a public key of his own, and the nonce that he gives out as his. */
interface Mask {
  readonly publicKey: Uint8Array;
  readonly nonce: Uint8Array;
}

class Middleman {
  private towardsWearable: Mask;
  private towardsCounter: Mask;

  constructor(
    private readonly random: RandomStream,
    private readonly counter: CounterSide,
    private readonly wearable: WearableSide,
    private readonly tries: number,
  ) {
    this.towardsWearable = { publicKey: drawBytes(random, 32), nonce: drawBytes(random, 16) };
    this.towardsCounter = { publicKey: drawBytes(random, 32), nonce: drawBytes(random, 16) };
  }

  attack(order: Order): void {
    if (order === 'wearable first') this.wearableFirst();
    else this.counterFirst();
  }

  /** The counter's nonce comes only once it has his own: a better one, or a better key, comes too late. */
  private wearableFirst(): void {
    const due = this.digitsOnWearable(this.answerWearable());
    this.revealToWearable();
    this.helloToCounter();
    const counterNonce = this.nonceToCounter();
    if (counterNonce === null) throw new Error('the counter did not reveal');
    if (this.digitsOnCounter(counterNonce) === due) return;

    const guess = this.towardsCounter;
    this.search(() => {
      this.towardsCounter = { ...guess, nonce: drawBytes(this.random, 16) };
      return this.digitsOnCounter(counterNonce) === due;
    });
    if (this.nonceToCounter() !== null) return;
    this.search(() => {
      this.towardsCounter = { ...guess, publicKey: drawBytes(this.random, 32) };
      return this.digitsOnCounter(counterNonce) === due;
    });
    this.helloToCounter();
  }

  /** The wearable's nonce comes only once he is committed to his own: he can neither commit anew nor reveal another. */
  private counterFirst(): void {
    this.helloToCounter();
    const counterNonce = this.nonceToCounter();
    if (counterNonce === null) throw new Error('the counter did not reveal');
    const due = this.digitsOnCounter(counterNonce);
    const wearableNonce = this.answerWearable();

    if (this.digitsOnWearable(wearableNonce) !== due) {
      const guess = this.towardsWearable;
      this.search(() => {
        this.towardsWearable = { ...guess, nonce: drawBytes(this.random, 16) };
        return this.digitsOnWearable(wearableNonce) === due;
      });
      this.wearable.receive(this.answer());
    }
    this.revealToWearable();
  }

  private search(fits: () => boolean): void {
    for (let tried = 0; tried < this.tries; tried++) if (fits()) return;
  }

  private answerWearable(): Uint8Array {
    return read(this.wearable.receive(this.answer()), 'nonce').nonce;
  }

  private answer(): Uint8Array {
    const { publicKey, nonce } = this.towardsWearable;
    const commitment = commitmentOf(CHIP, publicKey, this.wearable.publicKey, nonce);
    return writePairing({ frame: 'answer', ...IDS, ...OPENS, publicKey, commitment });
  }

  private revealToWearable(): void {
    this.wearable.receive(writePairing({ frame: 'reveal', ...IDS, nonce: this.towardsWearable.nonce }));
  }

  private helloToCounter(): void {
    this.counter.receive(writePairing({ frame: 'hello', ...IDS, publicKey: this.towardsCounter.publicKey }));
  }

  /** The counter's nonce, or null where it does not answer. */
  private nonceToCounter(): Uint8Array | null {
    const answer = this.counter.receive(writePairing({ frame: 'nonce', ...IDS, nonce: this.towardsCounter.nonce }));
    return answer === null ? null : read(answer, 'reveal').nonce;
  }

  private digitsOnWearable(wearableNonce: Uint8Array): number {
    const { publicKey: counterKey, nonce: counterNonce } = this.towardsWearable;
    return comparisonDigits(CHIP, {
      ...IDS,
      ...OPENS,
      counterKey,
      wearableKey: this.wearable.publicKey,
      counterNonce,
      wearableNonce,
    });
  }

  private digitsOnCounter(counterNonce: Uint8Array): number {
    const { publicKey: wearableKey, nonce: wearableNonce } = this.towardsCounter;
    return comparisonDigits(CHIP, {
      ...IDS,
      ...OPENS,
      counterKey: this.counter.publicKey,
      wearableKey,
      counterNonce,
      wearableNonce,
    });
  }
}

function read<F extends ClearMessage['frame']>(frame: Uint8Array | null, due: F): Extract<ClearMessage, { frame: F }> {
  const message = frame === null ? 'nothing' : readPairing(frame);
  if (typeof message === 'string' || message.frame !== due)
    throw new Error(`${due} is due, not ${JSON.stringify(message)}`);
  return message as Extract<ClearMessage, { frame: F }>;
}
