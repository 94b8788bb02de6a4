// Brings samples down to a lower rate, so that a spectrum up to 1413 Hz costs no more than it must: a linear-phase low-pass, of
// which only the outputs that are kept are computed.

/** Nothing up to here is touched: the upper end of the band of 1250 Hz. */
const PASS_HZ = 10 ** 3.15;
/** The lower rate is at least so high: then what folds back lies above PASS_HZ, with room for the filter to fall. */
const LEAST_HZ = 5120;
/** Of the stop band, dB. */
const ATTENUATION_DB = 60;

export class Decimator {
  readonly factor: number;
  readonly rateHz: number;
  /** The first half of the taps and the middle one: the second half mirrors the first. */
  private readonly taps: Float64Array;
  private readonly size: number;
  /** What came last before the samples that are taken, one less than there are taps; then these samples. */
  private line: Float64Array;
  /** Samples still to pass before the next one that is kept. */
  private due = 0;

  constructor(rateHz: number) {
    this.factor = Math.max(1, Math.floor(rateHz / LEAST_HZ));
    this.rateHz = rateHz / this.factor;
    const taps = this.factor === 1 ? Float64Array.of(1) : lowPass(rateHz, this.rateHz - PASS_HZ);
    this.size = taps.length;
    this.taps = taps.slice(0, (taps.length + 1) / 2);
    this.line = new Float64Array(taps.length - 1);
  }

  /** A new stretch begins: what came before a gap is forgotten. */
  begin(): void {
    this.line.fill(0);
    this.due = 0;
  }

  /** Takes samples from..to-1 and writes what is kept to `out`, which has room for it; returns how many were written. */
  take(samples: Float64Array, from: number, to: number, out: Float64Array): number {
    const { taps, factor, size } = this;
    const count = to - from;
    if (this.line.length < size - 1 + count) {
      const longer = new Float64Array(size - 1 + count);
      longer.set(this.line.subarray(0, size - 1));
      this.line = longer;
    }
    const { line } = this;
    line.set(samples.subarray(from, to), size - 1);
    const half = (size - 1) / 2;
    let written = 0;
    let at = this.due;
    for (; at < count; at += factor) {
      let sum = taps[half]! * line[at + half]!;
      for (let tap = 0, mirrored = at + size - 1; tap < half; tap++, mirrored--) {
        sum += taps[tap]! * (line[at + tap]! + line[mirrored]!);
      }
      out[written++] = sum;
    }
    this.due = at - count;
    line.copyWithin(0, count, count + size - 1);
    return written;
  }
}

/** A Kaiser window over the ideal low-pass between PASS_HZ and stopHz; sums to 1. */
function lowPass(rateHz: number, stopHz: number): Float64Array {
  const width = (stopHz - PASS_HZ) / rateHz;
  const size = 1 + 2 * Math.ceil((ATTENUATION_DB - 8) / (2 * 2.285 * 2 * Math.PI * width));
  const beta = 0.1102 * (ATTENUATION_DB - 8.7);
  const corner = (PASS_HZ + stopHz) / rateHz;
  const middle = (size - 1) / 2;
  const taps = Float64Array.from({ length: size }, (_, at) => {
    const off = at - middle;
    const ideal = off === 0 ? corner : Math.sin(Math.PI * corner * off) / (Math.PI * off);
    return ideal * bessel0(beta * Math.sqrt(1 - (off / middle) ** 2));
  });
  const sum = taps.reduce((total, tap) => total + tap, 0);
  return taps.map((tap) => tap / sum);
}

/** Modified Bessel function of the first kind, order 0, by its series. */
function bessel0(x: number): number {
  let [sum, term] = [1, 1];
  for (let k = 1; term > sum * Number.EPSILON; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}
