// Reads a trace back from its canonical text. Strict: what is read is what would be written, or the line is named in which it
// is not. A trace that was cut short, changed by hand or made by another version is refused, never guessed at.
import { canonicalLine } from './canonical.js';
import { type FieldType, KINDS, type Kind, type TraceEvent } from './kinds.js';

export interface TraceProblem {
  /** Counted from 1. */
  readonly line: number;
  /** What is wrong with it, as a sentence. */
  readonly message: string;
}

export type TraceReading =
  | { readonly ok: true; readonly events: readonly TraceEvent[] }
  | { readonly ok: false; readonly problem: TraceProblem };

/** Text to events: one event a line, each line ended by a line feed. */
export function readTrace(text: string): TraceReading {
  const lines = text.split('\n');
  const unfinished = lines.pop();
  const events: TraceEvent[] = [];
  for (const line of lines) {
    const event = readLine(line, events);
    if (typeof event === 'string') return { ok: false, problem: { line: events.length + 1, message: event } };
    events.push(event);
  }
  if (unfinished === '') return { ok: true, events };
  return { ok: false, problem: { line: lines.length + 1, message: 'The line is cut off: no line feed ends it.' } };
}

/** The event of a line that comes after these events, or a sentence on what is wrong with it. */
function readLine(line: string, before: readonly TraceEvent[]): TraceEvent | string {
  const fields = parse(line);
  if (fields === null) return 'The line is no event: an event is an object in JSON, on one line.';
  const { kind } = fields;
  if (!isKind(kind)) return `${quoted(kind)} is no kind of event.`;
  const wrong = wrongField(kind, fields) ?? wrongPlace(fields as unknown as TraceEvent, before);
  if (wrong !== null) return wrong;
  const event = fields as unknown as TraceEvent;
  if (canonicalLine(event) !== line) return 'The line is not canonical: sorted keys, no spaces, each key once.';
  return event;
}

function parse(line: string): Readonly<Record<string, unknown>> | null {
  try {
    const value: unknown = JSON.parse(line);
    return typeof value === 'object' && value !== null && !Array.isArray(value) ? { ...value } : null;
  } catch {
    return null;
  }
}

function isKind(kind: unknown): kind is Kind {
  return typeof kind === 'string' && Object.hasOwn(KINDS, kind);
}

const COMMON: Readonly<Record<string, FieldType>> = {
  at: 'number',
  by: 'text',
  cause: 'number',
  kind: 'text',
  n: 'number',
};

function wrongField(kind: Kind, fields: Readonly<Record<string, unknown>>): string | null {
  const types: Readonly<Record<string, FieldType>> = { ...COMMON, ...KINDS[kind] };
  for (const [name, type] of Object.entries(types)) {
    if (!Object.hasOwn(fields, name)) return `The field "${name}" of ${kind} is missing.`;
    if (!CHECKS[type](fields[name])) return `"${name}" of ${kind} is ${quoted(fields[name])}, not ${WANTED[type]}.`;
  }
  const unknown = Object.keys(fields).find((name) => !Object.hasOwn(types, name));
  return unknown === undefined ? null : `${kind} has no field ${quoted(unknown)}.`;
}

/** Whether the event stands where its numbers say. */
function wrongPlace({ at, cause, n }: TraceEvent, before: readonly TraceEvent[]): string | null {
  const earliestMs = before[before.length - 1]?.at ?? 0;
  if (n !== before.length + 1) return `Event ${n} stands where event ${before.length + 1} belongs.`;
  if (at < earliestMs) return `Event ${n} lies at ${at} ms, before ${earliestMs} ms.`;
  if (cause < 0 || cause >= n) return `Event ${n} names event ${cause} as its cause, which does not lie before it.`;
  return null;
}

const isText = (value: unknown) => typeof value === 'string';

const CHECKS: Readonly<Record<FieldType, (value: unknown) => boolean>> = {
  number: Number.isSafeInteger,
  text: isText,
  hex: (value) => typeof value === 'string' && /^([0-9a-f]{2})*$/.test(value),
  flag: (value) => typeof value === 'boolean',
  texts: (value) => Array.isArray(value) && value.every(isText),
  levels: (value) => Array.isArray(value) && value.every(isLevel),
};

const WANTED: Readonly<Record<FieldType, string>> = {
  number: 'a whole number',
  text: 'a text',
  hex: 'bytes in hexadecimal',
  flag: 'true or false',
  texts: 'a list of texts',
  levels: 'a list of levels',
};

function isLevel(value: unknown): boolean {
  if (typeof value !== 'object' || value === null) return false;
  const { compare, level, points, ...more } = value as Record<string, unknown>;
  return (
    (compare === 'reached' || compare === 'exceeded') &&
    isText(level) &&
    Number.isSafeInteger(points) &&
    Object.keys(more).length === 0
  );
}

/** Longest piece of the text that a message repeats. */
const MAX_QUOTED = 60;

function quoted(value: unknown): string {
  const text = JSON.stringify(value) ?? 'nothing';
  return text.length <= MAX_QUOTED ? text : `${text.slice(0, MAX_QUOTED)}…`;
}
