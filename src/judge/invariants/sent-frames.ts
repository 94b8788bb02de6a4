// The frames that were sent, so that what is heard can be held against them: by the number of the sending event as long as they
// may be on their way, and by their bytes for the whole day, as somebody may send them again.
import type { EventOf } from '../../trace/kinds.js';

export type SentEvent = EventOf<'air.tally'> | EventOf<'air.report'> | EventOf<'air.ack'> | EventOf<'air.pairing'>;
type Sending = SentEvent | EventOf<'air.injected'>;

/** A frame is on its way for ten minutes at most: the longest delay that a scenario may ask for. */
const ON_ITS_WAY_MS = 600_000;

export class SentFrames {
  /** In the order of sending. */
  private readonly sent = new Map<number, Sending>();
  /** Genuine ones: the first that was sent, by receiver and bytes; and bytes of genuine refusals of a pairing. */
  private readonly genuine = new Map<string, SentEvent>();
  private readonly refusals = new Set<string>();
  /** Those of all the day that are not yet among them: on most days nobody asks. */
  private unsorted: SentEvent[] = [];
  /** What was asked for last, as several ask for the same. */
  private lastHeard: EventOf<'air.heard'> | undefined;
  private lastFound: SentEvent | undefined;

  add(event: Sending): void {
    for (const [n, { at }] of this.sent) {
      if (at + ON_ITS_WAY_MS >= event.at) break;
      this.sent.delete(n);
    }
    this.sent.set(event.n, event);
    if (event.kind !== 'air.injected') this.unsorted.push(event);
  }

  /** The event n, undefined where it sent no frame or lies too far back. */
  find(n: number): Sending | undefined {
    return this.sent.get(n);
  }

  /** Whether these are the bytes of a genuine refusal, whoever said it. */
  isRefusal(bytes: string): boolean {
    this.sort();
    return this.refusals.has(bytes);
  }

  /**
   * The genuine frame that was heard, undefined where it is none: its bits were changed on the way, or somebody made it up. A
   * frame that somebody sends again, word for word and to whom it was sent, is what it was.
   */
  heard(event: EventOf<'air.heard'>): SentEvent | undefined {
    if (event === this.lastHeard) return this.lastFound;
    this.lastHeard = event;
    this.lastFound = this.genuineOf(event);
    return this.lastFound;
  }

  private genuineOf({ cause, by, from, frame }: EventOf<'air.heard'>): SentEvent | undefined {
    const sent = this.sent.get(cause);
    if (sent === undefined || sent.to !== by) return undefined;
    if (sent.kind !== 'air.injected') return sent.by === from && frameOf(sent) === frame ? sent : undefined;
    this.sort();
    return this.genuine.get(keyOf(by, sent.bytes));
  }

  private sort(): void {
    for (const event of this.unsorted) {
      const key = keyOf(event.to, event.bytes);
      if (!this.genuine.has(key)) this.genuine.set(key, event);
      if (event.kind === 'air.pairing' && event.frame === 'refuse') this.refusals.add(event.bytes);
    }
    this.unsorted = [];
  }
}

/** Name of the frame that an event sends. */
export function frameOf(event: SentEvent): string {
  switch (event.kind) {
    case 'air.tally':
      return 'tally';
    case 'air.report':
      return 'report';
    case 'air.ack':
      return 'ack';
    case 'air.pairing':
      return event.frame;
  }
}

function keyOf(to: string, bytes: string): string {
  return `${to} ${bytes}`;
}
