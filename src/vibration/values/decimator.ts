// Brings samples down to a lower rate, so that a spectrum up to 1413 Hz costs no more than it must: a linear-phase low-pass, of
// which only the outputs that are kept are computed.

/** Nothing up to here is touched: the upper end of the band of 1250 Hz. */
const PASS_HZ = 10 ** 3.15;
/** The lower rate is at least so high: then what folds back lies above PASS_HZ, with room for the filter to fall. */
const LEAST_HZ = 5120;
/** Of the stop band, dB. */
const ATTENUATION_DB = 70;

export class Decimator {
  readonly factor: number;
  readonly rateHz: number;
  private readonly taps: Float64Array;
  /** What came last, twice as long as the taps, written twice, so that a stretch of it is never cut in two. */
  private readonly history: Float64Array;
  private at = 0;
  private due = 0;

  constructor(rateHz: number) {
    this.factor = Math.max(1, Math.floor(rateHz / LEAST_HZ));
    this.rateHz = rateHz / this.factor;
    this.taps = this.factor === 1 ? Float64Array.of(1) : lowPass(rateHz, this.rateHz - PASS_HZ);
    this.history = new Float64Array(2 * this.taps.length);
  }

  /** A new stretch begins: what came before a gap is forgotten. */
  begin(): void {
    this.history.fill(0);
    this.due = 0;
  }

  /** Takes samples from..to-1 and writes what is kept to `out`, which has room for it; returns how many were written. */
  take(samples: Float64Array, from: number, to: number, out: Float64Array): number {
    const { taps, history, factor } = this;
    const size = taps.length;
    let written = 0;
    for (let index = from; index < to; index++) {
      history[this.at] = samples[index]!;
      history[this.at + size] = samples[index]!;
      this.at = this.at + 1 === size ? 0 : this.at + 1;
      if (this.due > 0) {
        this.due -= 1;
        continue;
      }
      this.due = factor - 1;
      let sum = 0;
      for (let tap = 0; tap < size; tap++) sum += taps[tap]! * history[this.at + tap]!;
      out[written++] = sum;
    }
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
