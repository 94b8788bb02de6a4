// The tallies that a wearable has taken in: heard as they were sent, while it was awake, and not refused. Whether one is refused
// is known from the very next event only, so the one heard last is taken in when something else is asked for.
import type { EventOf } from '../../trace/kinds.js';
import type { Facts } from './facts.js';

export interface HeardTally {
  readonly tally: EventOf<'air.tally'>;
  readonly heard: EventOf<'air.heard'>;
}

export class HeardTallies {
  private last: HeardTally | undefined;

  constructor(private readonly facts: Facts) {}

  /** A frame is heard; returns the tally before it, if that was taken in. */
  hear(heard: EventOf<'air.heard'>): HeardTally | undefined {
    const before = this.take();
    if (!this.facts.device(heard.by).awake) return before;
    const tally = this.facts.sent.heard(heard);
    if (tally?.kind === 'air.tally') this.last = { tally, heard };
    return before;
  }

  /** Returns the tally that is refused. */
  refuse({ cause }: EventOf<'air.refused'>): HeardTally | undefined {
    return this.last?.heard.n === cause ? this.take() : undefined;
  }

  /** The last tally, if it was taken in and is not yet asked for. */
  take(): HeardTally | undefined {
    const { last } = this;
    this.last = undefined;
    return last;
  }
}
