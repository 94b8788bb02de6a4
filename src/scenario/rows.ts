// Rows of parameters: the day runs once a row, with each $name replaced by the row's value.
import { mapsOf } from './collections.js';
import { MAX_ROWS } from './limits.js';
import type { Problems } from './problems.js';
import {
  type BrokenNode,
  type Entry,
  type MapNode,
  type Node,
  nodeWord,
  quoted,
  type ScalarNode,
} from './yaml/node.js';

export interface Row {
  /** "" for the one row of a file without rows, else for example "away=5m loss=0/1". */
  readonly label: string;
  /** Broken where the row has something else than one value. */
  readonly values: ReadonlyMap<string, ScalarNode | BrokenNode>;
}

/** Of the parameters that a row lacks so many are named. */
const MAX_NAMED = 10;
const NAME = /^[A-Za-z][A-Za-z0-9_-]{0,39}$/;
/** A name with something behind it. */
const WITHIN = /^([A-Za-z][A-Za-z0-9_-]{0,39})([^A-Za-z0-9_-].*)$/s;

/** The rows of a file; one without values where the file has none, or none that can be read. */
export function readRows(node: Node | undefined, problems: Problems): readonly Row[] {
  const nothing: Row = { label: '', values: new Map() };
  if (node === undefined) return [nothing];
  const maps = mapsOf(node, 'a row of parameters', MAX_ROWS, problems);
  if (node.kind === 'list' && node.items.length === 0) {
    problems.at(node, 'missing', 'there is no row', 'at least one row such as {away: 5m}, or no "rows" at all');
  }
  const rows = new Map<string, Row>();
  for (const map of maps) {
    if (map.entries.length === 0) problems.at(map, 'missing', 'this row has no parameter', 'at least one, {away: 5m}');
    if (maps[0] !== undefined && reportDifference(map, maps[0], problems)) continue;
    const values = new Map(map.entries.flatMap((entry) => readParameter(entry, problems)));
    const label = [...values].map(([name, value]) => `${name}=${inLabel(value)}`).join(' ');
    if (rows.has(label)) problems.at(map, 'unexpected', 'this row stands here twice', 'rows that differ in a value');
    rows.set(label, { label, values });
  }
  return rows.size === 0 ? [nothing] : [...rows.values()];
}

/** A value as a row's label shows it: in quotes where it would not be one visible word. */
function inLabel(value: ScalarNode | BrokenNode): string {
  const text = value.kind === 'scalar' ? value.text : '';
  return /^[\p{L}\p{M}\p{N}\p{P}\p{S}]+$/u.test(text) ? text : JSON.stringify(text);
}

function readParameter({ key, keySpan, value }: Entry, problems: Problems): [string, ScalarNode | BrokenNode][] {
  if (!NAME.test(key)) {
    const expected = 'a letter, then letters, digits, "-" and "_"';
    problems.on(keySpan, 'value', `${quoted(key)} cannot be the name of a parameter`, expected);
    return [];
  }
  if (value.kind === 'scalar' && value.type !== 'nothing' && parameterOf(value) === null) return [[key, value]];
  problems.at(value, 'value', `here stands ${nodeWord(value)}`, 'a parameter has one value, and no $name for it');
  return [[key, { kind: 'broken', span: value.span }]];
}

/** Whether a row has other parameters than the first. */
function reportDifference(map: MapNode, first: MapNode, problems: Problems): boolean {
  const keys = new Set(map.entries.map(({ key }) => key));
  const firstKeys = new Set(first.entries.map(({ key }) => key));
  const missing = [...firstKeys].filter((key) => !keys.has(key));
  if (missing.length > 0) {
    problems.at(
      map,
      'missing',
      `this row lacks ${missing.slice(0, MAX_NAMED).join(', ')}`,
      'every row has the parameters of the first',
    );
  }
  const more = map.entries.filter(({ key }) => !firstKeys.has(key));
  for (const { key, keySpan } of more) {
    const near = { word: key, known: firstKeys };
    problems.on(keySpan, 'unexpected', `the first row has no ${quoted(key)}`, 'all rows have the same ones', near);
  }
  return missing.length + more.length > 0;
}

/** The name behind the $ of a scalar written without quotes, or null. */
export function parameterOf(node: Node): string | null {
  if (node.kind !== 'scalar' || !node.plain || !node.text.startsWith('$')) return null;
  return node.text.slice(1);
}

/** A parameter that is a part of a longer value: "$n bytes". */
function reportWithin(node: ScalarNode, name: string, rest: string, row: Row, problems: Problems): void {
  const value = row.values.get(name);
  const whole = value?.kind === 'scalar' ? `, and in the rows ${name}: ${value.text}${rest}` : '';
  const expected = `a parameter stands for the whole value: write $${name}${whole}`;
  problems.at(node, 'value', `${quoted(node.text)} has more than a parameter`, expected);
}

/** The tree with every $name replaced; a name that the row lacks is reported. `used` gathers the names. */
export function fillIn(node: Node, row: Row, used: Set<string>, problems: Problems): Node {
  switch (node.kind) {
    case 'broken':
      return node;
    case 'list':
      return { ...node, items: node.items.map((item) => fillIn(item, row, used, problems)) };
    case 'map': {
      const fill = (entry: Entry): Entry => ({ ...entry, value: fillIn(entry.value, row, used, problems) });
      return { ...node, entries: node.entries.map(fill) };
    }
    case 'scalar': {
      const parameter = parameterOf(node);
      if (parameter === null) return node;
      used.add(parameter);
      const within = WITHIN.exec(parameter);
      if (within !== null) {
        const [, name = '', rest = ''] = within;
        used.add(name);
        reportWithin(node, name, rest, row, problems);
        return { kind: 'broken', span: node.span };
      }
      const value = row.values.get(parameter);
      if (value !== undefined) return value.kind === 'broken' ? value : { ...value, parameter };
      const known = [...row.values.keys()];
      const expected =
        known.length === 0 ? 'the file has no rows that give it a value' : `rows give ${known.join(', ')}`;
      const near = { word: parameter, known };
      problems.at(node, 'unknown', `unknown parameter ${quoted(`$${parameter}`)}`, expected, near);
      return { kind: 'broken', span: node.span };
    }
  }
}

/** Reports the parameters of the rows that nothing uses. */
export function reportUnused(rows: Node | undefined, used: ReadonlySet<string>, problems: Problems): void {
  const first = rows?.kind === 'list' ? rows.items[0] : undefined;
  for (const { key, keySpan } of first?.kind === 'map' ? first.entries : []) {
    if (NAME.test(key) && !used.has(key))
      problems.on(keySpan, 'unexpected', `nothing uses $${key}`, 'put it into the day, or leave it out');
  }
}
