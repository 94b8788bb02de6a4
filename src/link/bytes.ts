// Whether two runs of bytes are the same: a key that is said again, a nonce that keeps its commitment. It takes longer the more
// of them agree, so it is for what has crossed the air, never for what is secret.

export function sameBytes(one: Uint8Array, other: Uint8Array): boolean {
  return one.length === other.length && one.every((byte, index) => byte === other[index]);
}
