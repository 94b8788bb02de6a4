// The latest frames that were sent, by the number of the sending event, so that what is heard can be held against it.
import type { EventOf } from '../../trace/kinds.js';

export type SentEvent = EventOf<'air.tally'> | EventOf<'air.report'> | EventOf<'air.ack'> | EventOf<'air.pairing'>;

/** A power of two. A frame is on its way for ten minutes at most, in which far fewer events happen. */
const SENT_KEPT = 65_536;

export class SentFrames {
  private readonly slots: (SentEvent | undefined)[] = new Array(SENT_KEPT);

  add(event: SentEvent): void {
    this.slots[event.n & (SENT_KEPT - 1)] = event;
  }

  /** The event n, undefined where it sent no frame or lies too far back. */
  find(n: number): SentEvent | undefined {
    const sent = this.slots[n & (SENT_KEPT - 1)];
    return sent?.n === n ? sent : undefined;
  }
}
