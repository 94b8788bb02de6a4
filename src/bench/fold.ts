// Folds plain data into 32 bits, so that two states that differ anywhere differ in the fold, as good as always.

/** Multipliers of MurmurHash3 (Austin Appleby, public domain). */
const SPREAD = 0xcc9e2d51;
const MIX = 0xe6546b64;

/** value: numbers, texts, flags, null, and lists and records of them. Throws on anything else, which it could not tell apart. */
export function fold(value: unknown, seed: number): number {
  switch (typeof value) {
    case 'number':
      return Number.isSafeInteger(value)
        ? foldBits(foldBits(seed, value | 0), Math.floor(value / 2 ** 32) | 0)
        : foldText(String(value), seed);
    case 'string':
      return foldText(value, seed);
    case 'boolean':
      return foldBits(seed, value ? 1 : 2);
    case 'object':
      return foldObject(value, seed);
    default:
      throw new Error(`a ${typeof value} cannot be folded`);
  }
}

function foldObject(value: object | null, seed: number): number {
  if (value === null) return foldBits(seed, 4);
  if (value instanceof Uint8Array) return foldBytes(value, foldBits(seed, 7));
  if (value instanceof Map || value instanceof Set) throw new Error('a map or set cannot be folded');
  let sum = foldBits(seed, 5);
  if (Array.isArray(value)) for (let index = 0; index < value.length; index++) sum = fold(value[index], sum);
  else for (const key in value) sum = fold((value as Record<string, unknown>)[key], sum);
  return foldBits(sum, 6);
}

function foldText(text: string, seed: number): number {
  let sum = foldBits(seed, text.length);
  for (let index = 0; index < text.length; index++) sum = foldBits(sum, text.charCodeAt(index));
  return sum;
}

function foldBytes(bytes: Uint8Array, seed: number): number {
  let sum = foldBits(seed, bytes.length);
  for (let index = 0; index < bytes.length; index++) sum = foldBits(sum, bytes[index]!);
  return sum;
}

function foldBits(seed: number, bits: number): number {
  const spread = Math.imul(bits, SPREAD);
  const mixed = seed ^ Math.imul((spread << 15) | (spread >>> 17), 0x1b873593);
  return (Math.imul((mixed << 13) | (mixed >>> 19), 5) + MIX) | 0;
}
