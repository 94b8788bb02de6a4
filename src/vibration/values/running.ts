// The running r.m.s. over one second, in steps of a tenth of it; seconds with a gap in them are left out.

const STEPS = 10;

export class RunningMean {
  private readonly step: number;
  private readonly sums = new Float64Array(STEPS);
  private steps = 0;
  private filled = 0;
  private most = 0;
  /** Of all, for what is shorter than a second. */
  private total = 0;
  private frames = 0;

  constructor(rateHz: number) {
    this.step = Math.round(rateHz / STEPS);
  }

  /** Samples that still fit into the present step. */
  get room(): number {
    return this.step - this.filled;
  }

  begin(): void {
    this.steps = 0;
    this.filled = 0;
    this.sums.fill(0);
  }

  /** The sum of the squares of so many samples, room at most. */
  add(square: number, count: number): void {
    this.total += square;
    this.frames += count;
    this.sums[this.steps % STEPS]! += square;
    this.filled += count;
    if (this.filled < this.step) return;
    this.filled = 0;
    this.steps += 1;
    if (this.steps >= STEPS)
      this.most = Math.max(
        this.most,
        this.sums.reduce((sum, one) => sum + one, 0),
      );
    this.sums[this.steps % STEPS] = 0;
  }

  /** Of the greatest second; of all where there was no whole second. */
  greatest(): number {
    if (this.most > 0) return Math.sqrt(this.most / (STEPS * this.step));
    return this.frames === 0 ? 0 : Math.sqrt(this.total / this.frames);
  }
}
