// Compares two traces down to the first event in which they differ, with the causes of it in each.
// The traces are walked from the start. Checkpoints are not used to leap ahead: equal states at a minute do not prove equal
// events before it (a lost frame heals), so a leap could land on a later difference. They are used to say from which minute
// on devices and world themselves were no longer the same.
import { causesOf } from './causes.js';
import { clockText } from './clock.js';
import { eventText, fieldNames, fieldOf } from './event-text.js';
import type { TraceEvent } from './kinds.js';

export interface Side {
  /** Undefined where this trace has already ended. */
  readonly event: TraceEvent | undefined;
  /** What led to it, the nearest first. */
  readonly causes: readonly TraceEvent[];
}

export interface Difference {
  /** Position in both traces, from 0. */
  readonly index: number;
  /** Names of the fields that differ, sorted; only "kind" where the kinds differ; empty where one trace has ended. */
  readonly fields: readonly string[];
  readonly left: Side;
  readonly right: Side;
  /** Time of the first checkpoint with another digest, null where no checkpoint differs. */
  readonly statesDifferAtMs: number | null;
}

const COMMON = ['at', 'by', 'cause', 'n'];

/** The first difference, or null where the traces are the same. */
export function compareTraces(left: readonly TraceEvent[], right: readonly TraceEvent[]): Difference | null {
  const length = Math.max(left.length, right.length);
  for (let index = 0; index < length; index++) {
    const a = left[index];
    const b = right[index];
    if (a !== undefined && b !== undefined && same(a, b)) continue;
    return {
      index,
      fields: a === undefined || b === undefined ? [] : differingFields(a, b),
      left: { event: a, causes: a === undefined ? [] : causesOf(left, a.n) },
      right: { event: b, causes: b === undefined ? [] : causesOf(right, b.n) },
      statesDifferAtMs: firstOtherDigest(left, right),
    };
  }
  return null;
}

function same(a: TraceEvent, b: TraceEvent): boolean {
  if (a === b) return true;
  if (a.kind !== b.kind || a.at !== b.at || a.by !== b.by || a.cause !== b.cause || a.n !== b.n) return false;
  for (const name of fieldNames(a.kind)) if (!sameField(a, b, name)) return false;
  return true;
}

function sameField(a: TraceEvent, b: TraceEvent, name: string): boolean {
  const one = fieldOf(a, name);
  const other = fieldOf(b, name);
  return one === other || (typeof one === 'object' && JSON.stringify(one) === JSON.stringify(other));
}

function differingFields(a: TraceEvent, b: TraceEvent): readonly string[] {
  if (a.kind !== b.kind) return ['kind'];
  return [...COMMON, ...fieldNames(a.kind)].filter((name) => !sameField(a, b, name)).sort();
}

function firstOtherDigest(left: readonly TraceEvent[], right: readonly TraceEvent[]): number | null {
  const others = digests(right);
  for (const [at, digest] of digests(left)) {
    const other = others.get(at);
    if (other !== undefined && other !== digest) return at;
  }
  return null;
}

function digests(events: readonly TraceEvent[]): ReadonlyMap<number, string> {
  const found = new Map<number, string>();
  for (const event of events) if (event.kind === 'inner.checkpoint') found.set(event.at, event.digest);
  return found;
}

/** Causes shown of a long chain, before its root. */
const CAUSES_SHOWN = 8;

/** The difference as lines of text; the names say what the two traces are, fromMs is the start of the day. */
export function differenceText(difference: Difference, leftName: string, rightName: string, fromMs: number): string {
  const { index, fields, left, right, statesDifferAtMs } = difference;
  const width = Math.max(leftName.length, rightName.length);
  const lines = [
    `The traces differ first in event ${index + 1}${fields.length === 0 ? '' : `, in ${fields.join(', ')}`}.`,
  ];
  for (const [name, side] of [
    [leftName, left],
    [rightName, right],
  ] as const) {
    const text = side.event === undefined ? 'has ended' : eventText(side.event, fromMs);
    lines.push(
      `  ${name.padEnd(width)}  ${text}`,
      ...causeLines(side.causes, fromMs).map((line) => `  ${' '.repeat(width)}    ${line}`),
    );
  }
  if (statesDifferAtMs !== null)
    lines.push(`Devices and world differ from the checkpoint at ${clockText(fromMs, statesDifferAtMs)} on.`);
  return `${lines.join('\n')}\n`;
}

function causeLines(causes: readonly TraceEvent[], fromMs: number): readonly string[] {
  const shown = causes.slice(0, CAUSES_SHOWN).map((event) => `caused by ${eventText(event, fromMs)}`);
  const root = causes.at(-1);
  if (root === undefined || causes.length <= CAUSES_SHOWN) return shown;
  return [...shown, `… ${causes.length - CAUSES_SHOWN - 1} more, and at the root ${eventText(root, fromMs)}`];
}
