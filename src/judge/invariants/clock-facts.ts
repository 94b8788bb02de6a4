// How fast a device's clock has run, as the faults of the day say (CLK-1): bounds of what it showed between two moments. Where
// no fault was in force they are exact.

const HOUR_MS = 3_600_000;
const PER_MILLION = 1_000_000;
/** Drift never takes a clock further (CLK-1). */
const MAX_PPM = 20_000;
/** The world makes a drift in steps so far apart: a rate may lag behind its drift by as much. */
const STEP_MS = 300_000;

/** A rate that began with ppm at fromMs and gains driftPpm in each hour. */
interface Rate {
  readonly fromMs: number;
  readonly ppm: number;
  readonly driftPpm: number;
}

export class ClockFacts {
  /** In the order of time. */
  private readonly rates: Rate[] = [{ fromMs: Number.NEGATIVE_INFINITY, ppm: 0, driftPpm: 0 }];

  change(fromMs: number, ppm: number, driftPpm: number): void {
    this.rates.push({ fromMs, ppm, driftPpm });
  }

  /** Ms of the device's own clock between two moments of the world, at least. */
  least(fromMs: number, toMs: number): number {
    return this.rates.length === 1 ? toMs - fromMs : Math.floor(this.local(fromMs, toMs, Math.min));
  }

  most(fromMs: number, toMs: number): number {
    return this.rates.length === 1 ? toMs - fromMs : Math.ceil(this.local(fromMs, toMs, Math.max));
  }

  private local(fromMs: number, toMs: number, bound: (a: number, b: number) => number): number {
    if (fromMs === Number.NEGATIVE_INFINITY) return Number.POSITIVE_INFINITY;
    let sum = 0;
    let endMs = toMs;
    for (let index = this.rates.length - 1; index >= 0 && endMs > fromMs; index--) {
      const rate = this.rates[index];
      if (rate === undefined || rate.fromMs >= endMs) continue;
      const beginMs = Math.max(fromMs, rate.fromMs);
      const ppm = bound(ppmAt(rate, beginMs - STEP_MS), ppmAt(rate, endMs));
      sum += ((endMs - beginMs) * (PER_MILLION + ppm)) / PER_MILLION;
      endMs = beginMs;
    }
    return sum;
  }
}

function ppmAt({ fromMs, ppm, driftPpm }: Rate, atMs: number): number {
  if (driftPpm === 0) return ppm;
  const drifted = ppm + (driftPpm * Math.max(0, atMs - fromMs)) / HOUR_MS;
  return Math.max(-MAX_PPM, Math.min(drifted, MAX_PPM));
}
