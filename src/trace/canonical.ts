// The canonical text of an event: one line of JSON with sorted keys, no spaces, safe integers only. Two traces are the
// same where their texts are the same, byte for byte.
// The outward text leaves out what a second implementation numbers in its own way (n, cause) and all inner. events.
import { KINDS, type Kind, type TraceEvent } from './kinds.js';

type Value = number | string | boolean | readonly string[] | readonly object[];

interface Part {
  /** The text up to the value: separator, key, colon. */
  readonly lead: string;
  readonly key: string;
}

const NUMBERING = ['n', 'cause'];
const COMMON = ['at', 'by', 'kind', ...NUMBERING];

const wholePlan = planFor(() => true);
const outwardPlan = planFor((key) => !NUMBERING.includes(key));

/** The line of an event, without a line feed. Throws on a field that is missing or no safe integer. */
export function canonicalLine(event: TraceEvent): string {
  return lineBy(wholePlan, event);
}

/** The line that model and firmware must agree on; '' for inner. events. */
export function outwardLine(event: TraceEvent): string {
  return isInner(event.kind) ? '' : lineBy(outwardPlan, event);
}

export function isInner(kind: Kind): boolean {
  return kind.startsWith('inner.');
}

function planFor(wanted: (key: string) => boolean): ReadonlyMap<Kind, readonly Part[]> {
  return new Map(
    (Object.keys(KINDS) as Kind[]).map((kind) => {
      const keys = [...Object.keys(KINDS[kind]), ...COMMON].filter(wanted).sort();
      return [kind, keys.map((key, index) => ({ lead: `${index === 0 ? '{' : ','}"${key}":`, key }))];
    }),
  );
}

function lineBy(plan: ReadonlyMap<Kind, readonly Part[]>, event: TraceEvent): string {
  const parts = plan.get(event.kind);
  if (parts === undefined) throw new Error(`unknown kind of event: ${event.kind}`);
  const fields = event as unknown as Record<string, Value>;
  let text = '';
  for (const part of parts) text += part.lead + valueText(fields[part.key], part.key, event);
  return `${text}}`;
}

function valueText(value: Value | undefined, key: string, event: TraceEvent): string {
  switch (typeof value) {
    case 'number':
      if (Number.isSafeInteger(value)) return `${value}`;
      break;
    case 'string':
      return quoted(value);
    case 'boolean':
      return value ? 'true' : 'false';
    case 'object':
      return JSON.stringify(value);
  }
  throw new Error(`${event.kind} at ${event.at} ms: field ${key} cannot be written: ${value}`);
}

/** Names recur in every event; a bounded memory of their JSON saves most of the work. */
const MAX_REMEMBERED = 4096;
const remembered = new Map<string, string>();

function quoted(text: string): string {
  const known = remembered.get(text);
  if (known !== undefined) return known;
  if (remembered.size >= MAX_REMEMBERED) remembered.clear();
  const made = JSON.stringify(text);
  remembered.set(text, made);
  return made;
}
