// The canonical text of an event: one line of JSON with sorted keys, no spaces, safe integers only. Two traces are the
// same where their texts are the same, byte for byte.
// The outward text leaves out what a second implementation numbers in its own way (n, cause) and all inner. events.
import { KINDS, type Kind, type TraceEvent } from './kinds.js';

/** A field's key with its punctuation, and how its value is written. */
interface Part {
  readonly lead: string;
  readonly key: string;
  readonly write: (value: unknown) => string;
}

/** The fields of a kind in sorted order, cut where cause and n belong. */
interface Plan {
  readonly beforeCause: readonly Part[];
  readonly beforeN: readonly Part[];
  readonly afterN: readonly Part[];
  readonly inner: boolean;
}

/** The texts of one event; outward is '' for inner. events. Neither ends with a line feed. */
export interface Lines {
  readonly whole: string;
  readonly outward: string;
}

const PLANS: Readonly<Record<string, Plan>> = Object.fromEntries(
  (Object.keys(KINDS) as Kind[]).map((kind) => [kind, planOf(kind)]),
);

/** Both texts at once, which costs little more than one. Throws on a field that is missing or no safe integer. */
export function linesOf(event: TraceEvent): Lines {
  const plan = PLANS[event.kind];
  if (plan === undefined) throw new Error(`unknown kind of event: ${event.kind}`);
  const first = partsText(plan.beforeCause, event);
  const middle = partsText(plan.beforeN, event);
  const last = `${partsText(plan.afterN, event)}}`;
  return {
    whole: `${first},"cause":${integer(event.cause)}${middle},"n":${integer(event.n)}${last}`,
    outward: plan.inner ? '' : first + middle + last,
  };
}

/** The line of an event, without a line feed. */
export function canonicalLine(event: TraceEvent): string {
  return linesOf(event).whole;
}

export function isInner(kind: Kind): boolean {
  return kind.startsWith('inner.');
}

function planOf(kind: Kind): Plan {
  const types: Readonly<Record<string, string>> = { at: 'number', by: 'text', kind: 'text', ...KINDS[kind] };
  const keys = Object.keys(types).sort();
  const parts = keys.map((key, index) => ({
    lead: `${index === 0 ? '{' : ','}"${key}":`,
    key,
    write: writerOf(types[key]),
  }));
  return {
    beforeCause: parts.filter(({ key }) => key < 'cause'),
    beforeN: parts.filter(({ key }) => key > 'cause' && key < 'n'),
    afterN: parts.filter(({ key }) => key > 'n'),
    inner: isInner(kind),
  };
}

function partsText(parts: readonly Part[], event: TraceEvent): string {
  const fields = event as unknown as Record<string, unknown>;
  let text = '';
  for (let index = 0; index < parts.length; index++) {
    const { lead, key, write } = parts[index]!;
    text += lead + write(fields[key]);
  }
  return text;
}

function writerOf(type: string | undefined): (value: unknown) => string {
  switch (type) {
    case 'number':
      return integer;
    case 'text':
      return quoted;
    default:
      return json;
  }
}

function integer(value: unknown): string {
  if (!Number.isSafeInteger(value)) throw new Error(`a trace holds safe integers only, not ${value}`);
  return `${value}`;
}

/** Flags and lists. */
function json(value: unknown): string {
  if (value === undefined) throw new Error('a field of an event is missing');
  return JSON.stringify(value);
}

/** Names recur in every event; a bounded memory of their JSON saves most of the work. */
const MAX_REMEMBERED = 4096;
const remembered = new Map<unknown, string>();

function quoted(value: unknown): string {
  const known = remembered.get(value);
  if (known !== undefined) return known;
  if (typeof value !== 'string') throw new Error(`a text of an event is missing: ${value}`);
  if (remembered.size >= MAX_REMEMBERED) remembered.clear();
  const made = JSON.stringify(value);
  remembered.set(value, made);
  return made;
}
