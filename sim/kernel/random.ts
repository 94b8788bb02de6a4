// Named streams of random numbers, all derived from one seed. A stream depends on its name and the seed alone, so that
// drawing more from one never shifts another.
import { crc32 } from 'node:zlib';
import { xoroshiro128plus, xoroshiro128plusFromState } from 'pure-rand/generator/xoroshiro128plus';

type Generator = ReturnType<typeof xoroshiro128plus>;

export class RandomStream {
  private constructor(private readonly generator: Generator) {}

  /** seed: 0..2^32-1; name: any text. */
  static named(seed: number, name: string): RandomStream {
    return new RandomStream(xoroshiro128plus(crc32(name, seed >>> 0) | 0));
  }

  static fromState(state: readonly number[]): RandomStream {
    return new RandomStream(xoroshiro128plusFromState(state));
  }

  /** Position and content of the stream, as plain data. */
  state(): readonly number[] {
    return this.generator.getState();
  }

  /** 32 random bits, 0..2^32-1. */
  bits(): number {
    return this.generator.next() >>> 0;
  }

  /** A whole number of low..high, both included; low ≤ high, span below 2^32. */
  within(low: number, high: number): number {
    const span = high - low + 1;
    if (!(span >= 1 && span <= 2 ** 32)) throw new Error(`no whole number lies within ${low}..${high}`);
    const fair = 2 ** 32 - (2 ** 32 % span);
    for (;;) {
      const drawn = this.bits();
      if (drawn < fair) return low + (drawn % span);
    }
  }

  /** True with probability num/den; draws nothing where the answer is certain. */
  chance(num: number, den: number): boolean {
    if (num <= 0) return false;
    return num >= den || this.within(1, den) <= num;
  }
}
