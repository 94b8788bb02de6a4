// Noise at any position, without all that lies before it: knots drawn block by block, each block from a stream of its own, and
// straight lines between them. Knots that lie close make a broad noise, knots far apart a slow unrest.
import { RandomStream } from '../kernel/random.js';

const KNOTS_A_BLOCK = 128;
const HALF_RANGE = 2 ** 31;

export class Noise {
  private readonly knots = new Float64Array(KNOTS_A_BLOCK + 1);
  private block = -1;

  /** seed: 0..2^32-1; everySamples: from one knot to the next. */
  constructor(
    private readonly seed: number,
    private readonly name: string,
    private readonly everySamples: number,
  ) {}

  /** -1 up to 1, at a sample from 0 on. */
  at(sample: number): number {
    const knot = Math.floor(sample / this.everySamples);
    const block = Math.floor(knot / KNOTS_A_BLOCK);
    if (block !== this.block) this.draw(block);
    const index = knot - block * KNOTS_A_BLOCK;
    const before = this.knots[index]!;
    return before + ((this.knots[index + 1]! - before) * (sample - knot * this.everySamples)) / this.everySamples;
  }

  private draw(block: number): void {
    const stream = this.streamOf(block);
    for (let index = 0; index < KNOTS_A_BLOCK; index++) this.knots[index] = drawn(stream);
    // The first knot of the next block, so that no line breaks off.
    this.knots[KNOTS_A_BLOCK] = drawn(this.streamOf(block + 1));
    this.block = block;
  }

  private streamOf(block: number): RandomStream {
    return RandomStream.named(this.seed, `${this.name} ${block}`);
  }
}

function drawn(stream: RandomStream): number {
  return stream.bits() / HALF_RANGE - 1;
}
