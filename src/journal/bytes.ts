// Whether two runs of bytes are the same: a value that is kept already, a program that came out as it should.

export function isSame(one: Uint8Array, other: Uint8Array): boolean {
  if (one.length !== other.length) return false;
  for (let index = 0; index < one.length; index++) if (one[index] !== other[index]) return false;
  return true;
}
