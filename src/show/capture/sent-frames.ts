// Every frame that a trace has sent into the air, with what became of it.
import type { EventOf, TraceEvent } from '../../trace/kinds.js';
import type { SentEvent } from '../../trace/moment-air.js';

export interface SentFrame {
  readonly sent: SentEvent | EventOf<'air.injected'>;
  /** Why it went no further, '' where it did. */
  readonly lost: string;
  /** What arrived of it: nothing, one copy, or more than one where it was doubled. */
  readonly copies: readonly Copy[];
}

export interface Copy {
  /** Some of its bits were changed on the way. */
  readonly damaged: boolean;
  /** Why it was dropped, '' where it was taken. */
  readonly refused: string;
}

interface Growing {
  readonly sent: SentFrame['sent'];
  lost: string;
  readonly copies: { damaged: boolean; refused: string }[];
}

/** In the order in which they were sent. */
export function sentFrames(events: readonly TraceEvent[]): readonly SentFrame[] {
  const frames = new Map<number, Growing>();
  const copies = new Map<number, Growing['copies'][number]>();
  for (const event of events) {
    switch (event.kind) {
      case 'air.tally':
      case 'air.report':
      case 'air.ack':
      case 'air.pairing':
      case 'air.injected':
        frames.set(event.n, { sent: event, lost: '', copies: [] });
        break;
      case 'air.lost': {
        const frame = frames.get(event.cause);
        if (frame !== undefined) frame.lost = event.reason;
        break;
      }
      case 'air.heard': {
        const copy = { damaged: event.frame === 'damaged', refused: '' };
        frames.get(event.cause)?.copies.push(copy);
        copies.set(event.n, copy);
        break;
      }
      case 'air.refused': {
        // What is refused is the copy that was heard just before.
        const copy = copies.get(event.cause);
        if (copy !== undefined) copy.refused = event.reason;
        break;
      }
      default:
    }
  }
  return [...frames.values()];
}
