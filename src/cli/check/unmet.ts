// Faults of a day that never came about: power that was to fail within a write or an erase that never came, or an attack in the
// middle of a pairing that nobody began. A run holds all the same, and yet shows less than its file says.
import type { DayEvent } from '../../scenario/day.js';
import type { ScenarioRun } from '../../scenario/scenario.js';
import type { EventOf, TraceEvent } from '../../trace/kinds.js';

/** A fault that the day orders, and that comes only with what a device does. */
export interface WaitingFault {
  readonly what: 'cut' | 'attack';
  /** Where its step begins, in UTF-16 units of the file's text. */
  readonly offset: number;
  /** ms since the start of the day. */
  readonly atMs: number;
  readonly met: boolean;
}

/** All such faults of a run, in the order of the day. */
export function waitingFaults(events: readonly TraceEvent[], { day, offsets }: ScenarioRun): readonly WaitingFault[] {
  const unmet = unmetCuts(events);
  const keptBack = events.filter((event) => event.kind === 'air.lost').filter(({ reason }) => reason === 'intercepted');
  return day.events.flatMap((event, index): readonly WaitingFault[] => {
    const { atMs } = event;
    const offset = offsets[index] ?? 0;
    if (event.do === 'cut' && event.when !== 'now') return [{ what: 'cut', offset, atMs, met: !taken(unmet, event) }];
    if (event.do !== 'attack' || event.how !== 'middle') return [];
    const { tool, worker, forMs } = event;
    const met = keptBack.some(
      ({ at, by, to }) =>
        at >= atMs && at <= atMs + forMs && [tool, worker].includes(by) && [tool, worker].includes(to),
    );
    return [{ what: 'attack', offset, atMs, met }];
  });
}

/** Takes the event of the trace that has the same fault out of the list; false where there is none. */
function taken(planned: EventOf<'fault.planned'>[], event: Extract<DayEvent, { do: 'cut' }>): boolean {
  const index = planned.findIndex(
    ({ at, by, what }) => at === event.atMs && by === event.device && what === `cut ${event.when}`,
  );
  if (index >= 0) planned.splice(index, 1);
  return index >= 0;
}

/**
 * Of a device one for a write and one for an erase wait at a time: a later one takes the place of an earlier, and any loss of
 * power ends both.
 */
function unmetCuts(events: readonly TraceEvent[]): EventOf<'fault.planned'>[] {
  const unmet: EventOf<'fault.planned'>[] = [];
  const writes = new Map<string, EventOf<'fault.planned'>>();
  const erases = new Map<string, EventOf<'fault.planned'>>();
  const end = (waiting: Map<string, EventOf<'fault.planned'>>, device: string, met: boolean) => {
    const planned = waiting.get(device);
    waiting.delete(device);
    if (planned !== undefined && !met) unmet.push(planned);
    return planned !== undefined;
  };
  for (const event of events) {
    if (event.kind === 'fault.planned') {
      const waiting = event.what === 'cut write' ? writes : erases;
      end(waiting, event.by, false);
      waiting.set(event.by, event);
    }
    if (event.kind === 'fault.cut') {
      const erased = end(erases, event.by, event.during === 'erase');
      // An erase counts as bytes that are written, too.
      end(writes, event.by, event.during === 'write' || (event.during === 'erase' && !erased));
    }
  }
  return [...unmet, ...writes.values(), ...erases.values()];
}
