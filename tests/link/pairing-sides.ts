// Both sides of a pairing as README.md has them, down to the digits: bytes in, bytes out, no clock. X25519 is left out, since the
// digits come from the transcript alone: public keys are random bytes. A rule can be taken away, to see what it is for.
import type { RandomStream } from '../../sim/kernel/random.js';
import { CHIP } from '../../src/link/cipher.js';
import { readPairing, writePairing } from '../../src/link/frames.js';
import { commitmentOf, comparisonDigits } from '../../src/link/pairing.js';
import { drawBytes } from './draw.js';

/** Rules of README.md, "Pairing", that stand between a middleman and more than one guess. */
export const RULES = ['commitment', 'first hello', 'first answer', 'first nonce'] as const;
export type Rule = (typeof RULES)[number];

interface Hello {
  readonly publicKey: Uint8Array;
}

interface Answer {
  readonly link: number;
  readonly session: number;
  readonly publicKey: Uint8Array;
  readonly commitment: Uint8Array;
}

export class CounterSide {
  readonly publicKey: Uint8Array;
  private readonly nonce: Uint8Array;
  private hello: Hello | null = null;
  private wearableNonce: Uint8Array | null = null;

  constructor(
    random: RandomStream,
    private readonly ids: { readonly counter: number; readonly wearable: number },
    private readonly opens: { readonly link: number; readonly session: number },
    private readonly without: Rule | null,
  ) {
    this.publicKey = drawBytes(random, 32);
    this.nonce = drawBytes(random, 16);
  }

  /** What it sends back, or null. */
  receive(frame: Uint8Array): Uint8Array | null {
    const message = readPairing(frame);
    if (typeof message === 'string') return null;
    if (message.frame === 'hello') {
      if (this.hello === null || this.without === 'first hello') this.hello = message;
      if (!same(this.hello.publicKey, message.publicKey)) return null;
      const commitment = commitmentOf(CHIP, this.publicKey, message.publicKey, this.nonce);
      return writePairing({ frame: 'answer', ...this.ids, ...this.opens, publicKey: this.publicKey, commitment });
    }
    if (message.frame !== 'nonce' || this.hello === null) return null;
    if (this.wearableNonce === null || this.without === 'first nonce') this.wearableNonce = message.nonce;
    if (!same(this.wearableNonce, message.nonce)) return null;
    return writePairing({ frame: 'reveal', ...this.ids, nonce: this.nonce });
  }

  /** The digits that it shows once it has revealed; null before. */
  get digits(): number | null {
    const { hello, wearableNonce, ids, opens } = this;
    if (hello === null || wearableNonce === null) return null;
    const keys = { counterKey: this.publicKey, wearableKey: hello.publicKey };
    return comparisonDigits(CHIP, { ...ids, ...opens, ...keys, counterNonce: this.nonce, wearableNonce });
  }
}

export class WearableSide {
  readonly publicKey: Uint8Array;
  private readonly nonce: Uint8Array;
  private answer: Answer | null = null;
  private counterNonce: Uint8Array | null = null;
  private ended = false;

  constructor(
    random: RandomStream,
    private readonly ids: { readonly counter: number; readonly wearable: number },
    private readonly without: Rule | null,
  ) {
    this.publicKey = drawBytes(random, 32);
    this.nonce = drawBytes(random, 16);
  }

  hello(): Uint8Array {
    return writePairing({ frame: 'hello', ...this.ids, publicKey: this.publicKey });
  }

  /** What it sends back, or null. */
  receive(frame: Uint8Array): Uint8Array | null {
    const message = readPairing(frame);
    if (typeof message === 'string' || this.ended) return null;
    if (message.frame === 'answer') {
      if (this.answer !== null && this.without !== 'first answer') return null;
      this.answer = message;
      return writePairing({ frame: 'nonce', ...this.ids, nonce: this.nonce });
    }
    if (message.frame !== 'reveal' || this.answer === null || this.counterNonce !== null) return null;
    const { commitment, publicKey } = this.answer;
    const holds = same(commitment, commitmentOf(CHIP, publicKey, this.publicKey, message.nonce));
    if (holds || this.without === 'commitment') this.counterNonce = message.nonce;
    else this.ended = true;
    return null;
  }

  /** The digits that it shows once the counter has revealed what it had committed to; null before. */
  get digits(): number | null {
    const { answer, counterNonce, ids } = this;
    if (answer === null || counterNonce === null) return null;
    const { link, session, publicKey: counterKey } = answer;
    const keys = { counterKey, wearableKey: this.publicKey };
    return comparisonDigits(CHIP, { ...ids, link, session, ...keys, counterNonce, wearableNonce: this.nonce });
  }
}

function same(one: Uint8Array, other: Uint8Array): boolean {
  return one.length === other.length && one.every((byte, index) => byte === other[index]);
}
