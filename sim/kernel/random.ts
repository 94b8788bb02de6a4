// Named streams of random numbers, all derived from one seed. A stream depends on its name and the seed alone, so that
// drawing more from one never shifts another.
import { crc32 } from 'node:zlib';
import { xoroshiro128plus, xoroshiro128plusFromState } from 'pure-rand/generator/xoroshiro128plus';

type Generator = ReturnType<typeof xoroshiro128plus>;

/** What a stream is made of, as plain data. */
export interface RandomState {
  readonly generator: readonly number[];
  readonly drawn: number;
}

export class RandomStream {
  private constructor(
    private readonly generator: Generator,
    private draws: number,
  ) {}

  /** Numbers drawn so far: the position of the stream. */
  get drawn(): number {
    return this.draws;
  }

  /** seed: 0..2^32-1; name: any text. */
  static named(seed: number, name: string): RandomStream {
    return new RandomStream(xoroshiro128plus(mixed(crc32(name, seed >>> 0))), 0);
  }

  static fromState({ generator, drawn }: RandomState): RandomStream {
    return new RandomStream(xoroshiro128plusFromState(generator), drawn);
  }

  state(): RandomState {
    return { generator: this.generator.getState(), drawn: this.draws };
  }

  /** 32 random bits, 0..2^32-1. */
  bits(): number {
    this.draws += 1;
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

/**
 * Stirs 32 bits so that each of them sways all (the last steps of MurmurHash3, one to one). Without it two streams of one
 * seed would be the same but for a constant: a CRC is linear, and so are the low bits of this generator.
 */
function mixed(bits: number): number {
  let mix = bits ^ (bits >>> 16);
  mix = Math.imul(mix, 0x85ebca6b);
  mix = Math.imul(mix ^ (mix >>> 13), 0xc2b2ae35);
  return mix ^ (mix >>> 16);
}
