// The counter's side of a pairing by hand: there is no device, the test says each frame when it wants to (PAI-1, PAI-2).
import { type Secured, sealMessage, writePairing } from '../../src/link/frames.js';
import { commitmentOf, comparisonDigits, sessionKey } from '../../src/link/pairing.js';
import type { ClearMessage, SealedMessage } from '../../src/link/pairing-messages.js';
import { PAIRING_BYTES, randomBytes } from '../../src/port/random.js';
import { drawsOf } from './draws.js';
import type { WearableRig } from './wearable-rig.js';

type Answer = Extract<ClearMessage, { frame: 'answer' }>;

export class ToldCounter {
  readonly nonce: Uint8Array;
  private readonly secret: Uint8Array;

  constructor(
    readonly wearable: WearableRig,
    readonly id: number,
    readonly link: number,
    readonly session = 1,
  ) {
    const source = { random: drawsOf(65_536 * session + 256 * link + id) };
    this.secret = randomBytes(source, PAIRING_BYTES.secret);
    this.nonce = randomBytes(source, PAIRING_BYTES.nonce);
  }

  get publicKey(): Uint8Array {
    return this.wearable.site.cipher.publicKey(this.secret);
  }

  /** They touch, and the wearable says hello. */
  touch(): void {
    this.wearable.touch(this.id);
  }

  /** As a counter answers that says nothing else. */
  answer(other: Partial<Answer> = {}): void {
    const { link, session, publicKey, nonce, wearable } = this;
    const commitment = commitmentOf(wearable.site.cipher, publicKey, this.hello.publicKey, nonce);
    this.say({ frame: 'answer', ...this.ids, link, session, publicKey, commitment, ...other });
  }

  reveal(nonce = this.nonce): void {
    this.say({ frame: 'reveal', ...this.ids, nonce });
  }

  /** Sealed under the key of the pairing unless the test has another. */
  accept(secured = this.secured): void {
    this.seal({ frame: 'accept', link: this.link, ...this.ids, by: 'counter' }, secured);
  }

  /** All of it, on the spot, with the wearer's tap: the wearable keeps the key. */
  pair(): void {
    this.touch();
    this.answer();
    this.reveal();
    this.wearable.tap();
    this.accept();
  }

  /** What is sealed with the key of the pairing. */
  get secured(): Secured {
    const { cipher } = this.wearable.site;
    const shared = cipher.agree(this.secret, this.hello.publicKey)!;
    return { key: sessionKey(cipher, shared, this.transcript), session: this.session };
  }

  get digits(): number {
    return comparisonDigits(this.wearable.site.cipher, this.transcript);
  }

  /** A clear frame arrives at the wearable. */
  say(message: ClearMessage): void {
    this.wearable.hear(writePairing(message));
  }

  /** A sealed one. */
  seal(message: SealedMessage, secured = this.secured): void {
    this.wearable.hear(sealMessage(this.wearable.site.cipher, secured, message));
  }

  get ids(): { readonly counter: number; readonly wearable: number } {
    return { counter: this.id, wearable: this.wearable.id };
  }

  private get hello() {
    return lastOf(this.wearable.sent('hello'));
  }

  private get transcript() {
    return {
      ...this.ids,
      link: this.link,
      session: this.session,
      counterKey: this.publicKey,
      wearableKey: this.hello.publicKey,
      counterNonce: this.nonce,
      wearableNonce: lastOf(this.wearable.sent('nonce')).nonce,
    };
  }
}

function lastOf<T>(said: readonly T[]): T {
  const last = said.at(-1);
  if (last === undefined) throw new Error('the wearable has not said it yet');
  return last;
}
