// What a radio chip offers for secrecy. Devices are given one of the two below, and that switch is all that keys are.
import { createHash, hkdfSync } from 'node:crypto';
import { openCcm, sealCcm } from './ccm.js';
import { TAG_BITS } from './layout.js';
import { agreeMixed, deriveMixed, mix, openPlain, publicMixed, sealPlain } from './mixing.js';
import { agreeOn, publicKeyOf } from './x25519.js';

/** Arguments are only looked at during the call: their memory may be used again. Wrong lengths of keys and nonces throw. */
export interface Cipher {
  /** AES-128-CCM with a tag of 4 bytes; key 16 bytes, nonce 13. Ciphertext, then the tag. */
  seal(key: Uint8Array, nonce: Uint8Array, header: Uint8Array, body: Uint8Array): Uint8Array;
  /** The body, or null where the tag is wrong. */
  open(key: Uint8Array, nonce: Uint8Array, header: Uint8Array, sealed: Uint8Array): Uint8Array | null;
  /** X25519: the public key of a secret of any 32 bytes. */
  publicKey(secret: Uint8Array): Uint8Array;
  /** X25519: the shared secret, or null where a bad public key makes it all zero. */
  agree(secret: Uint8Array, peer: Uint8Array): Uint8Array | null;
  /** HKDF-SHA-256. */
  derive(shared: Uint8Array, salt: Uint8Array, info: Uint8Array, bytes: number): Uint8Array;
  /** SHA-256. */
  hash(data: Uint8Array): Uint8Array;
}

const TAG_BYTES = TAG_BITS / 8;

/** The real thing, from node:crypto. */
export const CHIP: Cipher = {
  seal: (key, nonce, header, body) => sealCcm(TAG_BYTES, key, nonce, header, body),
  open: (key, nonce, header, sealed) => openCcm(TAG_BYTES, key, nonce, header, sealed),
  publicKey: publicKeyOf,
  agree: agreeOn,
  derive: (shared, salt, info, bytes) => new Uint8Array(hkdfSync('sha256', shared, salt, info, bytes)),
  hash: (data) => Uint8Array.from(createHash('sha256').update(data).digest()),
};

/** For fast campaigns: the same lengths, the same refusals of bit errors and mistaken keys, and no secrecy at all. */
export const NO_KEYS: Cipher = {
  seal: sealPlain,
  open: openPlain,
  publicKey: publicMixed,
  agree: agreeMixed,
  derive: deriveMixed,
  hash: mix,
};
