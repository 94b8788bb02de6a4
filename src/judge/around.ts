// The few events about a moment that concern certain devices, for a person who wants to see what went on there.
import type { TraceEvent } from '../trace/kinds.js';

const SHOWN_BEFORE = 4;
const SHOWN_AFTER = 2;
/** No further away than this many events is looked. */
const REACH = 2000;

/**
 * The last events with at ≤ atMs and the first after it that concern one of the devices (any device where none is named),
 * and the deciding event, in order.
 */
export function eventsAround(
  events: readonly TraceEvent[],
  atMs: number,
  devices: readonly string[],
  deciding: TraceEvent | undefined,
): readonly TraceEvent[] {
  const split = countUpTo(events, atMs);
  const wanted = (event: TraceEvent) => event.kind !== 'inner.checkpoint' && concerns(event, devices);
  const chosen: TraceEvent[] = [];
  for (let i = split - 1; i >= Math.max(0, split - REACH) && chosen.length < SHOWN_BEFORE; i--) {
    if (wanted(events[i]!)) chosen.push(events[i]!);
  }
  const most = chosen.length + SHOWN_AFTER;
  for (let i = split; i < Math.min(events.length, split + REACH) && chosen.length < most; i++) {
    if (wanted(events[i]!)) chosen.push(events[i]!);
  }
  if (deciding !== undefined && !chosen.includes(deciding)) chosen.push(deciding);
  return chosen.sort((a, b) => a.n - b.n);
}

/** How many events have at ≤ atMs. */
function countUpTo(events: readonly TraceEvent[], atMs: number): number {
  let low = 0;
  let high = events.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((events[middle]?.at ?? 0) <= atMs) low = middle + 1;
    else high = middle;
  }
  return low;
}

function concerns(event: TraceEvent, devices: readonly string[]): boolean {
  if (devices.length === 0 || devices.includes(event.by)) return true;
  if ('to' in event && devices.includes(event.to)) return true;
  if ('tool' in event && devices.includes(event.tool)) return true;
  if ('counter' in event && devices.includes(event.counter)) return true;
  return 'who' in event && event.who.some((name) => devices.includes(name));
}
