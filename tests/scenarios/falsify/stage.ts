// What of a scenario file a mutation has to know: its cast, its frame, its labels, its rows. And the cast is enlarged by a tool
// and a worker that nothing is done with, so that every name can be swapped for another.
import { isMap, parseDocument } from 'yaml';
import { formatClock, parseClock, sinceStart } from '../../../src/scenario/fields/clock.js';
import { entryOf, isTreeMap, listOf, type Tree } from './tree.js';

export const SPARE_TOOL = 'spare tool';
export const SPARE_WORKER = 'Nobody';

export interface ScenarioStage {
  readonly tools: readonly string[];
  readonly workers: readonly string[];
  readonly whatIfs: readonly string[];
  /** ms after midnight, and the length of the day. */
  readonly fromMs: number;
  readonly untilMs: number;
  /** Label of steps: when the first of them begins. */
  readonly labels: ReadonlyMap<string, number>;
  /** Parameter of the rows: the values that it has in them. */
  readonly parameters: ReadonlyMap<string, readonly string[]>;
}

export function stageOf(text: string): ScenarioStage {
  const document = parseDocument(text);
  const textAt = (key: string): string => String(document.get(key));
  const fromMs = parseClock(textAt('from'))?.ms ?? 0;
  const until = parseClock(textAt('until'));
  if (until === null) throw new Error('a scenario has an end');
  return {
    tools: [...keysOf(text, 'tools'), SPARE_TOOL],
    workers: [...keysOf(text, 'workers'), SPARE_WORKER],
    whatIfs: keysOf(text, 'what-if'),
    fromMs,
    untilMs: sinceStart(until, fromMs),
    labels: labelsOf(listOf(text, 'day'), fromMs),
    parameters: parametersOf(listOf(text, 'rows')),
  };
}

export function clockText(atMs: number, { fromMs }: ScenarioStage): string {
  return formatClock(atMs, fromMs);
}

/** The scenario with other expectations, and with the spare tool and worker in its cast. All three stand in block style. */
export function rewritten(text: string, expectations: readonly string[]): string {
  const [tools] = rangeOf(text, 'tools');
  const [workers] = rangeOf(text, 'workers');
  const [start, end] = rangeOf(text, 'expect');
  const pieces: readonly (readonly [start: number, end: number, piece: string])[] = [
    [tools, tools, `${SPARE_TOOL}: {hand: rotary, magnitude: 5.0, keyed: 5.0}\n  `],
    [workers, workers, `${SPARE_WORKER}: {}\n  `],
    [start, end, `${expectations.map((line) => `- ${line}`).join('\n  ')}\n`],
  ];
  return [...pieces]
    .sort(([a], [b]) => b - a)
    .reduce((all, [from, to, piece]) => all.slice(0, from) + piece + all.slice(to), text);
}

/** The scenario with one of its expectations replaced, where it stands. */
export function withExpectation(text: string, index: number, line: string): string {
  const { range } = parseDocument(text).getIn(['expect', index], true) as { range?: readonly [number, number, number] };
  if (range === undefined) throw new Error(`the scenario has no expectation ${index}`);
  return text.slice(0, range[0]) + line + text.slice(range[1]);
}

/** Where the value of a key begins and ends. */
function rangeOf(text: string, key: string): readonly [start: number, end: number] {
  const { range } = parseDocument(text).get(key, true) as { range?: readonly [number, number, number] };
  if (range === undefined) throw new Error(`the scenario has no "${key}"`);
  return [range[0], range[1]];
}

function keysOf(text: string, key: string): readonly string[] {
  const map = parseDocument(text).get(key);
  return isMap(map) ? map.items.map((item) => String(item.key)) : [];
}

function labelsOf(steps: readonly Tree[], fromMs: number): ReadonlyMap<string, number> {
  const labels = new Map<string, number>();
  for (const step of steps) {
    const label = entryOf(step, 'as');
    const clock = parseClock(String(entryOf(step, 'at')));
    // A step whose time is a parameter has no one time.
    if (typeof label !== 'string' || clock === null) continue;
    labels.set(label, Math.min(labels.get(label) ?? Number.POSITIVE_INFINITY, sinceStart(clock, fromMs)));
  }
  return labels;
}

function parametersOf(rows: readonly Tree[]): ReadonlyMap<string, readonly string[]> {
  const values = new Map<string, string[]>();
  for (const row of rows) {
    if (!isTreeMap(row)) continue;
    for (const [name, value] of row.entries) values.set(name, [...(values.get(name) ?? []), String(value)]);
  }
  return values;
}
