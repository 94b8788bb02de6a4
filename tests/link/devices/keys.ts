// Public keys with which any secret comes to zero (RFC 7748, section 6.1, from memory): 0, and 1, a point of order 4. Without
// keys, in src/link/mixing.ts, only the first is one.
import { isSame } from './target.js';

export const USELESS_KEYS = [new Uint8Array(32), Uint8Array.of(1, ...new Uint8Array(31))];

/** keys: whether X25519 is what keys are agreed on with. */
export function isUseless(key: Uint8Array, keys: boolean): boolean {
  return USELESS_KEYS.slice(0, keys ? 2 : 1).some((useless) => isSame(key, useless));
}
