// Bounds of what a counter may count of the true handwork (TRG-1 to TRG-5, TRG-4's bounds, CLK-1): it is taken in stretches between
// rests long enough for every stop to be confirmed. Within a stretch, a burst of at least 0.3 s counts for its length, a window
// less or more at each end; a shorter one may go uncounted; a gap below 0.6 s may be counted. A clipped sensor counts as
// running; while it is silent or frozen, nothing to all that ran may be counted. Lengths are those of the counter's own clock.
import type { ClockFacts } from './clock-facts.js';

export const WINDOW_MS = 100;
const BURST_MS = 300;
const GAP_MS = 600;
/** Rest after which everything before it is counted or never will be: five windows, those of both ends, and one to spare. */
const REST_MS = 800;
const NEVER = Number.NEGATIVE_INFINITY;

/** Whether what a counter reads now counts, at most and at least. */
interface Reads {
  readonly may: boolean;
  readonly must: boolean;
}

/** Bounds of the windows of a stretch, in ms. */
export interface Bounds {
  readonly fromMs: number;
  readonly leastMs: number;
  readonly mostMs: number;
}

export class Stretch {
  private fromMs = 0;
  /** Since when it may count, and must; NEVER where it may not, or need not. */
  private mayMs = NEVER;
  private mustMs = NEVER;
  private restMs = NEVER;
  /** What may be counted, and must be, by what is over. */
  private leastMs = 0;
  private mostMs = 0;

  constructor(private readonly clock: ClockFacts) {}

  /** What it reads changes. */
  read(atMs: number, { may, must }: Reads): void {
    if (must !== this.mustMs > NEVER) {
      if (!must) this.endBurst(atMs);
      this.mustMs = must ? atMs : NEVER;
    }
    if (may === this.mayMs > NEVER) return;
    if (may) {
      if (this.clock.least(this.restMs, atMs) < GAP_MS) this.mostMs += this.clock.most(this.restMs, atMs);
      this.mayMs = atMs;
    } else {
      if (atMs > this.mayMs) this.mostMs += this.clock.most(this.mayMs, atMs) + 2 * WINDOW_MS;
      this.mayMs = NEVER;
      this.restMs = atMs;
    }
  }

  /** Everything before is counted or never will be: detection begins anew. */
  isOver(atMs: number): boolean {
    return this.mayMs === NEVER && this.clock.least(this.restMs, atMs) >= REST_MS;
  }

  /** The next stretch begins; returns the bounds of the last one. */
  next(atMs: number): Bounds {
    const bounds = { fromMs: this.fromMs, leastMs: this.leastMs, mostMs: this.mostMs };
    this.fromMs = atMs;
    this.leastMs = 0;
    this.mostMs = 0;
    this.restMs = NEVER;
    return bounds;
  }

  /** Bounds of what may be counted by now. */
  sofar(atMs: number): Bounds {
    const runningMs = this.mayMs === NEVER ? 0 : this.clock.most(this.mayMs, atMs) + WINDOW_MS;
    return { fromMs: this.fromMs, leastMs: this.leastMs, mostMs: this.mostMs + runningMs };
  }

  private endBurst(atMs: number): void {
    const ranMs = this.clock.least(this.mustMs, atMs);
    if (ranMs >= BURST_MS) this.leastMs += Math.max(0, ranMs - 2 * WINDOW_MS);
  }
}
