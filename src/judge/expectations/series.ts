// A value over time as a step function: at time t it is what it became by all events with at ≤ t.

export interface Step<T> {
  readonly atMs: number;
  /** The event that made it so; 0 for the value before any. */
  readonly n: number;
  readonly value: T;
}

export class Series<T> {
  private readonly steps: Step<T>[];

  /** `initial` holds until the first step. */
  constructor(initial: T) {
    this.steps = [{ atMs: 0, n: 0, value: initial }];
  }

  /** The latest value. */
  get last(): T {
    return this.stepAt(Number.POSITIVE_INFINITY).value;
  }

  /** Adds a step no earlier than the last one; of several at the same time only the last counts. */
  push(atMs: number, n: number, value: T): void {
    const last = this.stepAt(Number.POSITIVE_INFINITY);
    if (atMs < last.atMs) throw new Error(`a step at ${atMs} ms after one at ${last.atMs} ms`);
    if (value === last.value) return;
    if (atMs === last.atMs) this.steps.pop();
    this.steps.push({ atMs, n, value });
  }

  stepAt(atMs: number): Step<T> {
    let low = 0;
    let high = this.steps.length;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (this.step(middle).atMs <= atMs) low = middle;
      else high = middle;
    }
    return this.step(low);
  }

  /** The value at fromMs and every later one before untilMs, in order. */
  between(fromMs: number, untilMs: number): readonly Step<T>[] {
    const later = this.steps.filter((step) => step.atMs > fromMs && step.atMs < untilMs);
    return [this.stepAt(fromMs), ...later];
  }

  private step(index: number): Step<T> {
    const step = this.steps[index];
    if (step === undefined) throw new Error(`no step ${index}`);
    return step;
  }
}
