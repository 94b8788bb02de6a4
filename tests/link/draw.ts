// Bytes and choices from a seeded stream.
import type { RandomStream } from '../../sim/kernel/random.js';

export function drawBytes(random: RandomStream, length: number): Uint8Array {
  const bytes = new Uint8Array(length);
  for (let index = 0; index < length; index += 4) {
    const drawn = random.bits();
    for (let byte = 0; byte < 4 && index + byte < length; byte++) bytes[index + byte] = drawn >>> (8 * byte);
  }
  return bytes;
}

export function pick<T>(random: RandomStream, choices: readonly T[]): T {
  return choices[random.within(0, choices.length - 1)]!;
}

/** A value of so many bits (up to 53): one of the ends, a small one, or any. */
export function drawNumber(random: RandomStream, bits: number): number {
  const most = 2 ** bits - 1;
  switch (random.within(0, 4)) {
    case 0:
      return 0;
    case 1:
      return most;
    case 2:
      return random.within(0, Math.min(most, 600));
    case 3:
      return most - random.within(0, Math.min(most, 600));
    default:
      return bits <= 32 ? random.within(0, most) : random.within(0, 2 ** (bits - 32) - 1) * 2 ** 32 + random.bits();
  }
}
