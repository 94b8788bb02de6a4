// X25519 (RFC 7748) from node:crypto, on raw keys of 32 bytes (PAI-2).
import { createPrivateKey, createPublicKey, diffieHellman, type KeyObject } from 'node:crypto';

const KEY_BYTES = 32;
/** What stands before the raw key in DER (RFC 8410): PKCS #8 for a secret key, SubjectPublicKeyInfo for a public one. */
const SECRET_PREFIX = Uint8Array.of(0x30, 0x2e, 2, 1, 0, 0x30, 5, 6, 3, 0x2b, 0x65, 0x6e, 4, 0x22, 4, KEY_BYTES);
const PUBLIC_PREFIX = Uint8Array.of(0x30, 0x2a, 0x30, 5, 6, 3, 0x2b, 0x65, 0x6e, 3, 0x21, 0);

/** The public key of a secret of any 32 bytes. */
export function publicKeyOf(secret: Uint8Array): Uint8Array {
  const der = createPublicKey(secretKey(secret)).export({ format: 'der', type: 'spki' });
  return Uint8Array.from(der.subarray(PUBLIC_PREFIX.length));
}

/** The shared secret, 32 bytes; null where a bad public key makes it all zero (RFC 7748, section 6.1). */
export function agreeOn(secret: Uint8Array, peer: Uint8Array): Uint8Array | null {
  const keys = { privateKey: secretKey(secret), publicKey: publicKey(peer) };
  try {
    return Uint8Array.from(diffieHellman(keys));
  } catch {
    return null;
  }
}

function secretKey(raw: Uint8Array): KeyObject {
  return createPrivateKey({ key: der(SECRET_PREFIX, raw), format: 'der', type: 'pkcs8' });
}

function publicKey(raw: Uint8Array): KeyObject {
  return createPublicKey({ key: der(PUBLIC_PREFIX, raw), format: 'der', type: 'spki' });
}

function der(prefix: Uint8Array, raw: Uint8Array): Buffer {
  if (raw.length !== KEY_BYTES) throw new Error(`a key of X25519 has ${KEY_BYTES} bytes, not ${raw.length}`);
  return Buffer.concat([prefix, raw]);
}
