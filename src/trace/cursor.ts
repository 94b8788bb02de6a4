// Goes to any moment of a trace, forwards and backwards. A moment is kept every so many events, so that going anywhere
// folds a few hundred events at most: well under a millisecond, however long the trace is.
import type { EventOf, TraceEvent } from './kinds.js';
import { BEFORE, type Moment, momentAfter } from './moment.js';

/** Moments share what stayed the same, so that keeping one every so many events costs little. */
const EVENTS_BETWEEN_KEPT = 256;

export class Cursor {
  /** kept[k] is the moment after k · EVENTS_BETWEEN_KEPT events. */
  private readonly kept: Moment[] = [BEFORE];
  private readonly alerts: readonly EventOf<'shown.alert'>[];

  /** Throws where the events are not numbered from 1 in order, or time runs backwards. */
  constructor(readonly events: readonly TraceEvent[]) {
    this.alerts = events.filter((event) => event.kind === 'shown.alert').filter((event) => event.again === 0);
    let moment = BEFORE;
    for (const event of events) {
      if (event.n !== moment.n + 1 || event.at < moment.atMs) {
        throw new Error(`event ${event.n} at ${event.at} ms cannot follow event ${moment.n} at ${moment.atMs} ms`);
      }
      moment = momentAfter(moment, event);
      if (moment.n % EVENTS_BETWEEN_KEPT === 0) this.kept.push(moment);
    }
  }

  /** The moment after event n, 0 for before the first. Throws RangeError where the trace has no such event. */
  afterEvent(n: number): Moment {
    if (!Number.isInteger(n) || n < 0 || n > this.events.length) throw new RangeError(`the trace has no event ${n}`);
    let moment = this.kept[Math.floor(n / EVENTS_BETWEEN_KEPT)] ?? BEFORE;
    for (let index = moment.n; index < n; index++) moment = momentAfter(moment, this.events[index] as TraceEvent);
    return moment;
  }

  /** The moment at a time in ms since the start, with everything that happened up to and including it. */
  at(atMs: number): Moment {
    return { ...this.afterEvent(this.eventsUpTo(atMs)), atMs };
  }

  /** The first alert after a time, repetitions left out; undefined where there is none. */
  nextAlert(atMs: number): EventOf<'shown.alert'> | undefined {
    return this.alerts.find((alert) => alert.at > atMs);
  }

  /** The last alert before a time, repetitions left out; undefined where there is none. */
  previousAlert(atMs: number): EventOf<'shown.alert'> | undefined {
    return this.alerts.findLast((alert) => alert.at < atMs);
  }

  /** How many events happened up to and including a time: bisects, since times never run backwards. */
  private eventsUpTo(atMs: number): number {
    let low = 0;
    let high = this.events.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((this.events[middle] as TraceEvent).at <= atMs) low = middle + 1;
      else high = middle;
    }
    return low;
  }
}
