// Random bytes from a device's own source of random bits.

/** X25519 secrets, and the nonces of a pairing (PAI-2). */
export const PAIRING_BYTES = { secret: 32, nonce: 16 } as const;

/** length: whole 32-bit words. */
export function randomBytes(source: { random(): number }, length: number): Uint8Array {
  const bytes = new Uint8Array(length);
  const view = new DataView(bytes.buffer);
  for (let at = 0; at < length; at += 4) view.setUint32(at, source.random());
  return bytes;
}
