// The running r.m.s. over one second, in steps of a tenth of it; no second reaches over a gap. It tells how evenly a tool ran.

const STEPS = 10;

export class RunningMean {
  private readonly step: number;
  /** Sum of squares of each whole step, by stretch. */
  private readonly stretches: number[][] = [];
  private sum = 0;
  private filled = 0;

  constructor(private readonly rateHz: number) {
    this.step = Math.round(rateHz / STEPS);
  }

  /** Samples that still fit into the present step. */
  get room(): number {
    return this.step - this.filled;
  }

  begin(): void {
    this.stretches.push([]);
    this.sum = 0;
    this.filled = 0;
  }

  /** The sum of the squares of so many samples, room at most. */
  add(square: number, count: number): void {
    this.sum += square;
    this.filled += count;
    if (this.filled < this.step) return;
    this.stretches[this.stretches.length - 1]!.push(this.sum);
    this.sum = 0;
    this.filled = 0;
  }

  /** R.m.s. of the greatest second; null where there is no whole one. */
  greatest(): number | null {
    let most = -1;
    for (const second of this.seconds()) most = Math.max(most, second);
    return most < 0 ? null : Math.sqrt(most);
  }

  /** Seconds, to a tenth, that lie in the middle of a second whose r.m.s. is below this. */
  below(rms: number): number {
    let steps = 0;
    for (const second of this.seconds()) if (second < rms ** 2) steps += 1;
    return (steps * this.step) / this.rateHz;
  }

  /** Mean squares of all seconds, a tenth after another. */
  private *seconds(): Iterable<number> {
    for (const sums of this.stretches) {
      for (let at = STEPS; at <= sums.length; at++) {
        let sum = 0;
        for (let step = at - STEPS; step < at; step++) sum += sums[step]!;
        yield sum / (STEPS * this.step);
      }
    }
  }
}
