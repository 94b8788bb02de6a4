// Virtual time: an integer number of ms that only moves when told to, and the deadlines that wait on it.
// Every deadline fires at its own time, so a chain of them (each arming the next) is walked link by link however far
// the clock is moved in one go.
import { DueQueue, type Entry, type QueueState } from './queue.js';

/** Deadlines that may fire without time moving on, before it is called an endless loop. */
const MAX_AT_ONE_TIME = 100_000;

export type Deadline<T> = Entry<T>;

export interface ClockState<T> {
  nowMs: number;
  queue: QueueState<T>;
}

export function newClock<T>(): ClockState<T> {
  return { nowMs: 0, queue: { heap: [], nextOrder: 0 } };
}

export class VirtualClock<T> {
  private readonly queue: DueQueue<T>;

  /** The state is plain data where T is; a copy of it makes a clock that goes on from there. */
  constructor(readonly state: ClockState<T> = newClock()) {
    this.queue = new DueQueue(state.queue);
  }

  get nowMs(): number {
    return this.state.nowMs;
  }

  /** Arms a deadline delayMs ≥ 0 from now. */
  arm(delayMs: number, item: T): Deadline<T> {
    if (delayMs < 0) throw new Error(`a delay of ${delayMs} ms lies in the past`);
    return this.queue.push(this.state.nowMs + delayMs, item);
  }

  cancel(deadline: Deadline<T>): void {
    this.queue.cancel(deadline);
  }

  /** Time of the earliest deadline, Infinity where none is armed. */
  nextMs(): number {
    return this.queue.nextMs();
  }

  /** Moves to toMs without firing anything; no deadline may lie before it. */
  moveTo(toMs: number): void {
    if (toMs < this.state.nowMs) throw new Error(`time cannot go back from ${this.state.nowMs} to ${toMs} ms`);
    if (this.queue.nextMs() < toMs) throw new Error(`a deadline at ${this.queue.nextMs()} ms would be passed over`);
    this.state.nowMs = toMs;
  }

  /** Takes the earliest deadline and moves to its time. */
  take(): T {
    this.moveTo(this.queue.nextMs());
    return this.queue.take();
  }

  /** Fires everything due up to and including toMs, each at its own time, then stands at toMs. */
  runTo(toMs: number, fire: (item: T) => void): void {
    let atOneTime = 0;
    while (this.queue.nextMs() <= toMs) {
      const beforeMs = this.state.nowMs;
      const item = this.take();
      atOneTime = this.state.nowMs === beforeMs ? atOneTime + 1 : 0;
      if (atOneTime > MAX_AT_ONE_TIME) throw new Error(`deadlines at ${beforeMs} ms arm each other without end`);
      fire(item);
    }
    this.moveTo(toMs);
  }

  /** Times of all armed deadlines, in order. */
  pendingMs(): number[] {
    return this.queue.pendingMs();
  }
}
