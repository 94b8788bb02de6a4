// Somebody in the middle of a pairing (PAI-2): to the wearable a counter, to the counter a wearable, with keys of their own
// to both. The digits of the two sides come from different transcripts then, and whoever sits in the middle has committed to
// a nonce, or is held by a commitment, before the last nonce is known: the digits agree by chance, once in 10 000 times.
import { openMessage, readPairing, sealMessage, writePairing } from '../../link/frames.js';
import { commitmentOf, sessionKey, type Transcript } from '../../link/pairing.js';
import type { ClearMessage, Message } from '../../link/pairing-messages.js';
import { PAIRING_BYTES, randomBytes } from '../../port/random.js';
import { counterId, type Stage, wearableId } from '../stage.js';
import { inject } from './attack.js';
import type { AttackState, Middle } from './state.js';

/** What takes part in an exchange of keys: a refusal does not. */
type Exchanged = Exclude<ClearMessage, { readonly frame: 'refuse' }>;

/** A frame that comes by on its way. True where it goes no further: it is of a pairing, and no refusal. */
export function intercept(stage: Stage, order: AttackState, frame: Uint8Array, meaning: Message): boolean {
  if (meaning.frame === 'accept') {
    passAccept(stage, order, frame, meaning.by);
    return true;
  }
  const message = readPairing(frame);
  if (typeof message === 'string' || message.frame === 'refuse') return false;
  answer(stage, order, message);
  return true;
}

function answer(stage: Stage, order: AttackState, message: Exchanged): void {
  order.middle ??= begin(stage, order);
  const { middle } = order;
  switch (message.frame) {
    case 'hello':
      middle.wearableKey = message.publicKey;
      say(stage, order, { ...ids(stage, order), frame: 'hello', publicKey: middle.publicKey });
      break;
    case 'answer':
      middle.counterKey = message.publicKey;
      middle.link = message.link;
      middle.session = message.session;
      commit(stage, order, middle);
      break;
    case 'nonce':
      middle.wearableNonce = message.nonce;
      say(stage, order, { ...ids(stage, order), frame: 'nonce', nonce: middle.nonce });
      break;
    case 'reveal':
      middle.counterNonce = message.nonce;
      say(stage, order, { ...ids(stage, order), frame: 'reveal', nonce: middle.nonce });
      break;
  }
}

function begin({ random, workshop }: Stage, { tool, worker }: AttackState): Middle {
  const chance = random.attacks[tool]![worker]!;
  const source = { random: () => chance.bits() };
  const secret = randomBytes(source, PAIRING_BYTES.secret);
  return {
    secret,
    publicKey: workshop.cipher.publicKey(secret),
    nonce: randomBytes(source, PAIRING_BYTES.nonce),
    wearableKey: null,
    wearableNonce: null,
    counterKey: null,
    counterNonce: null,
    link: 0,
    session: 0,
  };
}

/** As a counter to the wearable. */
function commit(stage: Stage, order: AttackState, middle: Middle): void {
  const { wearableKey, publicKey, nonce, link, session } = middle;
  if (wearableKey === null) return;
  const commitment = commitmentOf(stage.workshop.cipher, publicKey, wearableKey, nonce);
  say(stage, order, { ...ids(stage, order), frame: 'answer', link, session, publicKey, commitment });
}

/** Both persons have been deceived only where the digits agreed by chance: then each side is told what it waits for. */
function passAccept(stage: Stage, order: AttackState, frame: Uint8Array, by: 'counter' | 'wearable'): void {
  const { middle } = order;
  const { cipher } = stage.workshop;
  if (middle === null) return;
  const [here, there] = by === 'counter' ? (['counter', 'wearable'] as const) : (['wearable', 'counter'] as const);
  const mine = keyWith(stage, order, middle, here);
  const theirs = keyWith(stage, order, middle, there);
  if (mine === null || theirs === null) return;
  const { link, session } = middle;
  const accept = openMessage(cipher, { key: mine, session }, frame);
  if (typeof accept === 'string' || accept.frame !== 'accept') return;
  const to = by === 'counter' ? wearableId(stage, order.worker) : counterId(order.tool);
  inject(stage, sealMessage(cipher, { key: theirs, session }, { ...accept, link }), to, 'middle');
}

/** The key that is shared with one of the two, once all is known that it comes from. */
function keyWith(stage: Stage, order: AttackState, middle: Middle, side: 'counter' | 'wearable'): Uint8Array | null {
  const { cipher } = stage.workshop;
  const { secret, publicKey, nonce, wearableKey, wearableNonce, counterKey, counterNonce, link, session } = middle;
  if (wearableKey === null || wearableNonce === null || counterKey === null || counterNonce === null) return null;
  const shared = cipher.agree(secret, side === 'counter' ? counterKey : wearableKey);
  if (shared === null) return null;
  const transcript: Transcript = {
    ...ids(stage, order),
    link,
    session,
    ...(side === 'counter'
      ? { counterKey, counterNonce, wearableKey: publicKey, wearableNonce: nonce }
      : { counterKey: publicKey, counterNonce: nonce, wearableKey, wearableNonce }),
  };
  return sessionKey(cipher, shared, transcript);
}

function ids(stage: Stage, { tool, worker }: AttackState): { counter: number; wearable: number } {
  return { counter: counterId(tool), wearable: wearableId(stage, worker) };
}

function say(stage: Stage, order: AttackState, message: Exchanged): void {
  const toCounter = message.frame === 'hello' || message.frame === 'nonce';
  const { counter, wearable } = ids(stage, order);
  inject(stage, writePairing(message), toCounter ? counter : wearable, 'middle');
}
