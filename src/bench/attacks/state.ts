// The attacks of a day, as plain data of the world.
import type { Attack } from '../../../sim/radio/attacker.js';

/** One attack of the day. */
export interface AttackState {
  readonly how: Attack | 'middle';
  readonly tool: number;
  readonly worker: number;
  readonly everyMs: number;
  over: boolean;
  /** The pairing that is being attacked, of an attack in the middle. */
  middle: Middle | null;
}

/** What somebody in the middle knows so far; bytes are those of X25519 keys and nonces. */
export interface Middle {
  readonly secret: Uint8Array;
  readonly publicKey: Uint8Array;
  readonly nonce: Uint8Array;
  wearableKey: Uint8Array | null;
  wearableNonce: Uint8Array | null;
  counterKey: Uint8Array | null;
  counterNonce: Uint8Array | null;
  link: number;
  session: number;
}
