// Stands in for keys where campaigns need speed (NO_KEYS): frames are clear and end in a CRC-32, keys are mixed bits. It
// withstands bit errors and mistaken keys as the real thing does, and nobody who knows it.
import { crc32 } from './crc32.js';

const TAG_BYTES = 4;
const HASH_WORDS = 8;
const KEY_BYTES = 16;
const PUBLIC_KEY_BYTES = 32;
/** 2^32 over the golden ratio: sets the words of a hash apart. */
const GOLDEN = 0x9e3779b9;

/** The body as it is, then a CRC-32 over nonce, header and body, begun with the first four bytes of the key. */
export function sealPlain(key: Uint8Array, nonce: Uint8Array, header: Uint8Array, body: Uint8Array): Uint8Array {
  const { length } = body;
  const sealed = new Uint8Array(length + TAG_BYTES);
  sealed.set(body);
  const tag = tagOf(key, nonce, header, body);
  sealed[length] = tag >>> 24;
  sealed[length + 1] = tag >>> 16;
  sealed[length + 2] = tag >>> 8;
  sealed[length + 3] = tag;
  return sealed;
}

export function openPlain(
  key: Uint8Array,
  nonce: Uint8Array,
  header: Uint8Array,
  sealed: Uint8Array,
): Uint8Array | null {
  const length = sealed.length - TAG_BYTES;
  if (length < 0) return null;
  const body = sealed.slice(0, length);
  const tag =
    ((sealed[length]! << 24) | (sealed[length + 1]! << 16) | (sealed[length + 2]! << 8) | sealed[length + 3]!) >>> 0;
  return tag === tagOf(key, nonce, header, body) ? body : null;
}

function tagOf(key: Uint8Array, nonce: Uint8Array, header: Uint8Array, body: Uint8Array): number {
  if (key.length !== KEY_BYTES) throw new Error(`a frame is sealed with ${KEY_BYTES} bytes, not ${key.length}`);
  const keyed = (key[0]! << 24) | (key[1]! << 16) | (key[2]! << 8) | key[3]!;
  return crc32(body, crc32(header, crc32(nonce, keyed)));
}

/** A hash of 32 bytes; every byte of the data sways each of them. */
export function mix(data: Uint8Array): Uint8Array {
  const mixed = new Uint8Array(HASH_WORDS * 4);
  for (let word = 0; word < HASH_WORDS; word++) {
    let state = Math.imul(word + 1, GOLDEN) ^ data.length;
    for (let index = 0; index < data.length; index++) {
      state = Math.imul(state ^ data[index]!, 0x85ebca6b);
      state ^= state >>> 13;
    }
    state = Math.imul(state ^ (state >>> 16), 0xc2b2ae35);
    state ^= state >>> 16;
    mixed.set([state >>> 24, state >>> 16, state >>> 8, state], word * 4);
  }
  return mixed;
}

/** The sum of both public keys: each side comes to it from its own secret and the other's public key. */
export function agreeMixed(secret: Uint8Array, peer: Uint8Array): Uint8Array | null {
  requireKey(secret);
  requireKey(peer);
  if (peer.every((byte) => byte === 0)) return null;
  return mix(secret).map((byte, index) => byte ^ peer[index]!);
}

export function publicMixed(secret: Uint8Array): Uint8Array {
  requireKey(secret);
  return mix(secret);
}

/** At most 32 bytes. */
export function deriveMixed(shared: Uint8Array, salt: Uint8Array, info: Uint8Array, bytes: number): Uint8Array {
  if (bytes > HASH_WORDS * 4) throw new Error(`no more than ${HASH_WORDS * 4} bytes are derived, not ${bytes}`);
  return mix(Buffer.concat([shared, salt, info])).slice(0, bytes);
}

function requireKey(key: Uint8Array): void {
  if (key.length === PUBLIC_KEY_BYTES) return;
  throw new Error(`a key of an agreement has ${PUBLIC_KEY_BYTES} bytes, not ${key.length}`);
}
