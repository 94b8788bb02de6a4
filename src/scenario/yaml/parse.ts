// The text of a scenario file to a tree of nodes: YAML 1.2, core schema, without what src/scenario/yaml/hazards.ts
// refuses, and with unique keys. A file that is no YAML has no tree.
import { isAlias, isMap, isScalar, isSeq, parseDocument, type Range, type YAMLError, type YAMLMap } from 'yaml';
import { MAX_PROBLEMS, type Problems } from '../problems.js';
import type { Span } from '../source.js';
import { withoutHazards } from './hazards.js';
import { type Entry, type MapNode, type Node, nodeWord, quoted, type ScalarNode } from './node.js';
import { slipOf } from './slips.js';

/** The library's own check of unique keys takes the square of their number; readEntries has one that does not. */
const OPTIONS = { version: '1.2', schema: 'core', uniqueKeys: false, prettyErrors: false, logLevel: 'silent' } as const;

/** The tree of a text, or null where it has none; reports every problem that it meets. */
export function parseTree(text: string, problems: Problems): Node | null {
  if (!withoutHazards(text, problems)) return null;
  const document = parseDocument(text, OPTIONS);
  const errors = [...document.errors, ...document.warnings];
  const tabs = errors.filter(({ code }) => code === 'TAB_AS_INDENT');
  // A tab makes the lines below it look indented wrongly.
  for (const error of firstOfEachLine(tabs.length > 0 ? tabs : errors, text).slice(0, MAX_PROBLEMS + 1)) {
    const { span, message, expected } = slipOf(error, text);
    problems.on(span, 'yaml', message, expected);
  }
  if (errors.length > 0) return null;
  return toNode(document.contents, { start: 0, end: 0 }, { text, problems });
}

/** One slip makes YAML say several things of the same line; the first tells most. */
function firstOfEachLine(errors: readonly YAMLError[], text: string): readonly YAMLError[] {
  let end = 0;
  return [...errors]
    .sort((a, b) => a.pos[0] - b.pos[0])
    .filter(({ pos: [start] }) => {
      if (start < end) return false;
      const lineEnd = text.indexOf('\n', Math.max(0, start));
      end = lineEnd === -1 ? Number.POSITIVE_INFINITY : lineEnd + 1;
      return true;
    });
}

function spanOf(range: Range | null | undefined, otherwise: Span): Span {
  return range === null || range === undefined ? otherwise : { start: range[0], end: range[1] };
}

interface Around {
  readonly text: string;
  readonly problems: Problems;
}

/** Depth is bounded by the hazards' MAX_STACK. */
function toNode(node: unknown, otherwise: Span, around: Around): Node {
  if (isMap(node)) return { kind: 'map', span: spanOf(node.range, otherwise), entries: readEntries(node, around) };
  if (isSeq(node)) {
    const span = spanOf(node.range, otherwise);
    return { kind: 'list', span, items: node.items.map((item) => toNode(item, span, around)) };
  }
  if (isAlias(node)) return { kind: 'broken', span: spanOf(node.range, otherwise) };
  return toScalar(node, otherwise);
}

function toScalar(node: unknown, otherwise: Span): ScalarNode {
  if (!isScalar(node)) {
    return { kind: 'scalar', span: otherwise, text: '', type: 'nothing', parameter: null, plain: true };
  }
  const { value, source } = node;
  const plain = node.type === 'PLAIN';
  const text = typeof value === 'string' ? value : (source ?? '');
  const type = TYPES[typeof value] ?? 'nothing';
  return { kind: 'scalar', span: spanOf(node.range, otherwise), text, type, parameter: null, plain };
}

const TYPES: Readonly<Record<string, ScalarNode['type']>> = {
  string: 'text',
  number: 'number',
  bigint: 'number',
  boolean: 'truth',
};

function readEntries(map: YAMLMap, around: Around): MapNode['entries'] {
  const { problems } = around;
  const entries = new Map<string, Entry>();
  for (const pair of map.items) {
    const keyNode = toNode(pair.key, spanOf(map.range, { start: 0, end: 0 }), around);
    const value = toNode(pair.value, keyNode.span, around);
    if (keyNode.kind !== 'scalar' || keyNode.type !== 'text' || keyNode.text === '') {
      if (pair.value === null && decimalComma(keyNode, around)) continue;
      const expected = 'a key is a text, in quotes where YAML takes it for something else';
      problems.at(keyNode, 'yaml', `${nodeWord(keyNode)} cannot be a key`, expected);
    } else if (entries.has(keyNode.text)) {
      const message = `the key ${quoted(keyNode.text)} stands here a second time`;
      problems.at(keyNode, 'yaml', message, 'a map has each key once');
    } else {
      entries.set(keyNode.text, { key: keyNode.text, keySpan: keyNode.span, value });
    }
  }
  return [...entries.values()];
}

/** Digits of a number. */
const MAX_DIGITS = 20;

/** Reports a number behind a comma behind a number, `to: 12,0`, and says whether it is one. */
function decimalComma({ span: { start, end } }: Node, { text, problems }: Around): boolean {
  const [whole] = /\d+,$/.exec(text.slice(Math.max(0, start - MAX_DIGITS), start)) ?? [];
  const fraction = text.slice(start, end);
  if (whole === undefined || !/^\d+$/.test(fraction)) return false;
  const span = { start: start - whole.length, end };
  const expected = `a decimal has a point: ${whole.replace(',', '.')}${fraction}`;
  problems.on(span, 'yaml', `there is a comma in ${quoted(`${whole}${fraction}`)}`, expected);
  return true;
}
