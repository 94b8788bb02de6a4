// The wearable's side by hand: there is no device, the test says each frame of a pairing, and each acknowledgement, when it
// wants to (PAI-1, PAI-2, TAL-5).
import { type Secured, sealMessage, writePairing } from '../../src/link/frames.js';
import { type Acknowledgement, ALERT_LEVELS, type AlertLevel } from '../../src/link/messages.js';
import { comparisonDigits, sessionKey } from '../../src/link/pairing.js';
import type { ClearMessage, SealedMessage } from '../../src/link/pairing-messages.js';
import { PAIRING_BYTES, randomBytes } from '../../src/port/random.js';
import type { CounterRig } from './counter-rig.js';
import { drawsOf } from './draws.js';

export class ToldWearable {
  /** Of the pairing that is open, or was last. */
  secured: Secured | null = null;
  nonce: Uint8Array;
  private secret: Uint8Array;
  private sequence = 0;
  private readonly source: { random(): number };

  constructor(
    readonly counter: CounterRig,
    readonly id: number,
  ) {
    this.source = { random: drawsOf(id) };
    this.secret = randomBytes(this.source, PAIRING_BYTES.secret);
    this.nonce = randomBytes(this.source, PAIRING_BYTES.nonce);
  }

  get publicKey(): Uint8Array {
    return this.counter.site.cipher.publicKey(this.secret);
  }

  /** They touch; keys and nonce are fresh. */
  touch(): void {
    this.secret = randomBytes(this.source, PAIRING_BYTES.secret);
    this.nonce = randomBytes(this.source, PAIRING_BYTES.nonce);
    this.counter.touch(this.id);
  }

  hello(publicKey = this.publicKey): void {
    this.say({ frame: 'hello', ...this.ids, publicKey });
  }

  sayNonce(nonce = this.nonce): void {
    this.say({ frame: 'nonce', ...this.ids, nonce });
  }

  accept(secured = this.agreed): void {
    this.seal({ frame: 'accept', link: this.answer.link, ...this.ids, by: 'wearable' }, secured);
  }

  /** All of it, on the spot, with the push of the person at the counter: the session opens. */
  pair(): void {
    this.touch();
    this.hello();
    this.sayNonce();
    this.counter.push();
    this.accept();
    this.secured = this.agreed;
    this.sequence = 0;
  }

  /** Acknowledges the last tally and report of the session that was paired last, unless it says otherwise. */
  acknowledge(level: AlertLevel, leftTenths: number, other: Partial<Acknowledgement> = {}): void {
    this.seal(this.acknowledgement(level, leftTenths, other));
  }

  acknowledgement(level: AlertLevel, leftTenths: number, other: Partial<Acknowledgement> = {}): Acknowledgement {
    this.sequence += 1;
    const told = { highest: this.highest('tally'), highestReport: this.highest('report') };
    const advice = { level: ALERT_LEVELS.indexOf(level), leftTenths, closed: false };
    return { frame: 'ack', link: this.answer.link, sequence: this.sequence, ...told, ...advice, ...other };
  }

  /** A clear frame arrives at the counter. */
  say(message: ClearMessage): void {
    this.counter.hear(writePairing(message));
  }

  /** A sealed one, under the key of the session that was paired last unless the test has another. */
  seal(message: SealedMessage, secured = this.secured ?? this.agreed): void {
    this.counter.hear(sealMessage(this.counter.site.cipher, secured, message));
  }

  get ids(): { readonly counter: number; readonly wearable: number } {
    return { counter: this.counter.id, wearable: this.id };
  }

  get digits(): number {
    return comparisonDigits(this.counter.site.cipher, this.transcript);
  }

  /** What the counter answered last. */
  get answer() {
    return lastOf(this.counter.sent('answer').filter(({ wearable }) => wearable === this.id));
  }

  /** What both have agreed on in the pairing that is open. */
  get agreed(): Secured {
    const { cipher } = this.counter.site;
    const shared = cipher.agree(this.secret, this.answer.publicKey)!;
    return { key: sessionKey(cipher, shared, this.transcript), session: this.answer.session };
  }

  private get transcript() {
    const { answer } = this;
    return {
      ...this.ids,
      link: answer.link,
      session: answer.session,
      counterKey: answer.publicKey,
      wearableKey: this.publicKey,
      counterNonce: lastOf(this.counter.sent('reveal').filter(({ wearable }) => wearable === this.id)).nonce,
      wearableNonce: this.nonce,
    };
  }

  private highest(name: 'tally' | 'report'): number {
    const { link } = this.answer;
    return Math.max(0, ...this.counter.sent(name).map((told) => (told.link === link ? told.sequence : 0)));
  }
}

function lastOf<T>(said: readonly T[]): T {
  const last = said.at(-1);
  if (last === undefined) throw new Error('the counter has not said it yet');
  return last;
}
