// One event on one line for a person: number, time of day, whose, kind, fields, and which event caused it.
import { clockText } from './clock.js';
import { type EventOf, KINDS, type Kind, type TraceEvent } from './kinds.js';

export type FieldValue = EventOf<Kind>[keyof EventOf<Kind>] | readonly string[] | readonly object[] | boolean;

/** The fields of each kind beside the common ones, in the table's order. */
const FIELD_NAMES: ReadonlyMap<Kind, readonly string[]> = new Map(
  (Object.keys(KINDS) as Kind[]).map((kind) => [kind, Object.keys(KINDS[kind])]),
);

export function fieldNames(kind: Kind): readonly string[] {
  const names = FIELD_NAMES.get(kind);
  if (names === undefined) throw new Error(`unknown kind of event: ${kind}`);
  return names;
}

/** Value of a field by name, undefined where the event has none of that name. */
export function fieldOf(event: TraceEvent, name: string): FieldValue | undefined {
  return (event as unknown as Record<string, FieldValue | undefined>)[name];
}

/** Digits of bytes that are shown: enough to tell the kind, link and sequence of a frame; the trace has them all. */
const DIGITS_SHOWN = 16;

/** "#41 07:12:00.300 breaker air.tally dose=2880000 to=Edda (by #40)"; fromMs is the day's start in ms after midnight. */
export function eventText(event: TraceEvent, fromMs: number): string {
  const types: Readonly<Record<string, string>> = KINDS[event.kind];
  const fields = fieldNames(event.kind).map((name) => ` ${name}=${valueText(fieldOf(event, name), types[name])}`);
  const cause = event.cause === 0 ? '' : ` (by #${event.cause})`;
  return `#${event.n} ${clockText(fromMs, event.at)} ${event.by} ${event.kind}${fields.join('')}${cause}`;
}

function valueText(value: FieldValue | undefined, type: string | undefined): string {
  if (type === 'hex' && typeof value === 'string' && value.length > DIGITS_SHOWN) {
    return `${value.slice(0, DIGITS_SHOWN)}…(${value.length / 2} bytes)`;
  }
  return typeof value === 'object' ? JSON.stringify(value) : `${value}`;
}
