// The frames that may still be on their way, by the number of the sending event, so that what is heard can be held against
// them.
import type { EventOf } from '../../trace/kinds.js';

export type SentEvent = EventOf<'air.tally'> | EventOf<'air.report'> | EventOf<'air.ack'> | EventOf<'air.pairing'>;

/** A frame is on its way for ten minutes at most: the longest delay that a scenario may ask for. */
const ON_ITS_WAY_MS = 600_000;

export class SentFrames {
  /** In the order of sending. */
  private readonly sent = new Map<number, SentEvent>();

  add(event: SentEvent): void {
    for (const [n, { at }] of this.sent) {
      if (at + ON_ITS_WAY_MS >= event.at) break;
      this.sent.delete(n);
    }
    this.sent.set(event.n, event);
  }

  /** The event n, undefined where it sent no frame or lies too far back. */
  find(n: number): SentEvent | undefined {
    return this.sent.get(n);
  }
}
