// What crosses the air in a pairing, in this order (PAI-1, PAI-2). Identities, links and sessions are never 0; keys are of
// X25519, 32 bytes; nonces and the commitment 16 bytes.
import type { Acknowledgement, RefuseReason, Report, Tally } from './messages.js';

/** Sealed under the new key: each side accepts once its person has; the wearable's is the last frame of the pairing. */
export interface Accept {
  readonly frame: 'accept';
  readonly link: number;
  readonly counter: number;
  readonly wearable: number;
  /** Who sends it. */
  readonly by: 'counter' | 'wearable';
}

export type PairingMessage =
  /** Wearable to counter. */
  | { readonly frame: 'hello'; readonly counter: number; readonly wearable: number; readonly publicKey: Uint8Array }
  /** Counter to wearable: its own key, and a commitment to the nonce that it reveals later. */
  | {
      readonly frame: 'answer';
      readonly counter: number;
      readonly wearable: number;
      readonly link: number;
      readonly session: number;
      readonly publicKey: Uint8Array;
      readonly commitment: Uint8Array;
    }
  /** Wearable to counter. */
  | { readonly frame: 'nonce'; readonly counter: number; readonly wearable: number; readonly nonce: Uint8Array }
  /** Counter to wearable: the nonce that it had committed to. */
  | { readonly frame: 'reveal'; readonly counter: number; readonly wearable: number; readonly nonce: Uint8Array }
  | Accept
  /** From either side. */
  | { readonly frame: 'refuse'; readonly counter: number; readonly wearable: number; readonly reason: RefuseReason };

/** What travels sealed under a key. */
export type SealedMessage = Tally | Report | Acknowledgement | Accept;

/** What travels before there is a key. */
export type ClearMessage = Exclude<PairingMessage, Accept>;

export type Message = SealedMessage | ClearMessage;
