// The record that a run's trace carries for a device, or why there is none and how a scenario has one written.

import { formatClock } from '../../scenario/fields/clock.js';
import { flowMap, flowText } from '../../scenario/yaml/flow.js';
import { clockText } from '../../trace/clock.js';
import type { EventOf, TraceEvent } from '../../trace/kinds.js';

const MINUTE_MS = 60_000;

export interface FoundRecord {
  readonly bytes: Uint8Array;
  /** ms since the start of the day. */
  readonly atMs: number;
}

interface Day {
  readonly fromMs: number;
  readonly untilMs: number;
}

/** The last record of the device up to and including untilMs, or sentences. whose: "Edda's wearable". */
export function findRecord(
  events: readonly TraceEvent[],
  name: string,
  whose: string,
  untilMs: number,
  day: Day,
): FoundRecord | string {
  const records = events.filter(
    (event) => event.kind === 'shown.record' && event.by === name,
  ) as EventOf<'shown.record'>[];
  const found = records.findLast(({ at }) => at <= untilMs);
  if (found !== undefined) return { bytes: Uint8Array.from(Buffer.from(found.bytes, 'hex')), atMs: found.at };
  const [first] = records;
  if (first !== undefined) {
    return `${whose} is read out at ${clockText(day.fromMs, first.at)} for the first time, later than that`;
  }
  const readout = events.find((event) => event.kind === 'hand.readout' && event.by === name);
  if (readout !== undefined) {
    const when = clockText(day.fromMs, readout.at);
    return `${whose} was laid into its reader at ${when} and handed nothing over: it had no power, or was busy with something else`;
  }
  const step = flowMap([
    ['at', formatClock(Math.max(0, day.untilMs - MINUTE_MS), day.fromMs)],
    ['readout', flowText(name)],
  ]);
  return `${whose} is not read out on this day, so there is no record. A step of the day has one written:\n  - ${step}`;
}
