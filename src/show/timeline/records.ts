// What becomes of dose when a shift is over: devices that are read out, and what a wearable hears for a shift that has closed.
import type { EventOf, TraceEvent } from '../../trace/kinds.js';
import type { Sums } from '../../trace/moment-tool.js';
import { sumsText } from '../words.js';

/** Sees the events of a day in their order, each once. */
export class RecordWatch {
  private readonly counters = new Set<string>();
  /** By wearable: its open shift. */
  private readonly open = new Map<string, number>();
  private readonly known = new Map<string, Sums>();

  /** events: the whole trace. */
  constructor(private readonly events: readonly TraceEvent[]) {}

  /** What is told of the event; undefined where that is nothing of this sort. */
  see(event: TraceEvent): string | undefined {
    switch (event.kind) {
      case 'hand.tool':
        this.counters.add(event.by);
        return undefined;
      case 'inner.shift':
        if (event.what === 'opened') this.open.set(event.by, event.shift);
        if (event.what === 'closed') this.open.delete(event.by);
        return undefined;
      case 'inner.resumed':
        if (event.open) this.open.set(event.by, event.shift);
        else this.open.delete(event.by);
        return undefined;
      case 'inner.ledger':
        return this.lateText(event);
      case 'shown.record':
        return this.counters.has(event.by) ? readOutText(this.handedOver(event)) : 'is read out';
      default:
        return undefined;
    }
  }

  private lateText(event: EventOf<'inner.ledger'>): string | undefined {
    const { by, counter, session, shift } = event;
    const entry = [by, counter, session].join('\n');
    const known = this.known.get(entry) ?? { dose: 0, triggerWindows: 0, unratedWindows: 0 };
    const more = {
      dose: Math.max(0, event.dose - known.dose),
      triggerWindows: Math.max(0, event.triggerWindows - known.triggerWindows),
      unratedWindows: Math.max(0, event.unratedWindows - known.unratedWindows),
    };
    // After a start a wearable may have less than it had shown: what it gets again is not late.
    this.known.set(entry, {
      dose: known.dose + more.dose,
      triggerWindows: known.triggerWindows + more.triggerWindows,
      unratedWindows: known.unratedWindows + more.unratedWindows,
    });
    if (this.open.get(by) === shift || more.triggerWindows === 0) return undefined;
    return `hears late from ${counter}: ${sumsText(more)} for shift ${shift}, which is closed`;
  }

  /** Numbers of the sessions that a counter lets go of with its record (PAI-7): told right after it. */
  private handedOver({ by, cause, n }: EventOf<'shown.record'>): readonly number[] {
    const sessions: number[] = [];
    for (const event of this.events.slice(n)) {
      if (event.cause !== cause || event.by !== by) break;
      if (event.kind === 'inner.session' && event.what === 'read out') sessions.push(event.session);
    }
    return sessions;
  }
}

function readOutText(sessions: readonly number[]): string {
  if (sessions.length === 0) return 'is read out: every session was delivered';
  return `is read out: session${sessions.length === 1 ? '' : 's'} ${sessions.join(', ')} handed over`;
}
