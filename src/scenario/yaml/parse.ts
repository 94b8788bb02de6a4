// The text of a scenario file to a tree of nodes: YAML 1.2, core schema, without what src/scenario/yaml/hazards.ts
// refuses, and with unique keys. A file that is no YAML has no tree.
import { isAlias, isMap, isScalar, isSeq, parseDocument, type Range, type YAMLError, type YAMLMap } from 'yaml';
import type { Problems } from '../problems.js';
import type { Span } from '../source.js';
import { withoutHazards } from './hazards.js';
import { type Entry, type MapNode, type Node, nodeWord, quoted, type ScalarNode } from './node.js';

/** The library's own check of unique keys takes the square of their number; readEntries has one that does not. */
const OPTIONS = { version: '1.2', schema: 'core', uniqueKeys: false, prettyErrors: false, logLevel: 'silent' } as const;

/** The tree of a text, or null where it has none; reports every problem that it meets. */
export function parseTree(text: string, problems: Problems): Node | null {
  if (!withoutHazards(text, problems)) return null;
  const document = parseDocument(text, OPTIONS);
  const errors = [...document.errors, ...document.warnings];
  for (const error of firstOfEachLine(errors, text)) {
    problems.on(spanOfError(error), 'yaml', sentence(error), HELP[error.code] ?? '');
  }
  if (errors.length > 0) return null;
  return toNode(document.contents, { start: 0, end: 0 }, problems);
}

const HELP: Partial<Record<YAMLError['code'], string>> = {
  TAB_AS_INDENT: 'lines are indented with spaces',
  BAD_INDENT: 'lines of one list or map begin in the same column',
  MISSING_CHAR: 'a bracket, a quote, or a space after a colon or a comma is missing here or above',
  MULTILINE_IMPLICIT_KEY: 'a key stands on one line; perhaps a colon or a bracket is missing above',
  BLOCK_AS_IMPLICIT_KEY: 'a colon is missing or one too many, or this line or the next is indented wrongly',
};

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

function sentence(error: YAMLError): string {
  return error.message.split('\n')[0] ?? '';
}

function spanOfError(error: YAMLError): Span {
  return { start: Math.max(0, error.pos[0]), end: Math.max(0, error.pos[1]) };
}

function spanOf(range: Range | null | undefined, otherwise: Span): Span {
  return range === null || range === undefined ? otherwise : { start: range[0], end: range[1] };
}

/** Depth is bounded by the hazards' MAX_STACK. */
function toNode(node: unknown, otherwise: Span, problems: Problems): Node {
  if (isMap(node)) return { kind: 'map', span: spanOf(node.range, otherwise), entries: readEntries(node, problems) };
  if (isSeq(node)) {
    const span = spanOf(node.range, otherwise);
    return { kind: 'list', span, items: node.items.map((item) => toNode(item, span, problems)) };
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

function readEntries(map: YAMLMap, problems: Problems): MapNode['entries'] {
  const entries = new Map<string, Entry>();
  for (const pair of map.items) {
    const keyNode = toNode(pair.key, spanOf(map.range, { start: 0, end: 0 }), problems);
    const value = toNode(pair.value, keyNode.span, problems);
    if (keyNode.kind !== 'scalar' || keyNode.type !== 'text' || keyNode.text === '') {
      const expected =
        'a key is a text, in quotes where YAML takes it for something else; a decimal has a point, no comma';
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
