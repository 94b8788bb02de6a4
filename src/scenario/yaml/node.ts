// A scenario file as a tree of plain nodes, each with its place: all that the language needs of YAML.
import { printable } from '../printable.js';
import type { Span } from '../source.js';

export interface ScalarNode {
  readonly kind: 'scalar';
  readonly span: Span;
  /** As written: numbers are read from here, so that no digit is lost. Of a quoted scalar, what stands in the quotes. */
  readonly text: string;
  /** What YAML 1.2 takes it for. */
  readonly type: 'text' | 'number' | 'truth' | 'nothing';
  /** The parameter that this value was put in for, or null. */
  readonly parameter: string | null;
  /** Written without quotes and on one line. */
  readonly plain: boolean;
}

export interface ListNode {
  readonly kind: 'list';
  readonly span: Span;
  readonly items: readonly Node[];
}

export interface MapNode {
  readonly kind: 'map';
  readonly span: Span;
  /** Keys are unique. */
  readonly entries: readonly Entry[];
}

export interface Entry {
  readonly key: string;
  readonly keySpan: Span;
  readonly value: Node;
}

/** Something that could not be read and has been reported; whoever meets it stays silent. */
export interface BrokenNode {
  readonly kind: 'broken';
  readonly span: Span;
}

export type Node = ScalarNode | ListNode | MapNode | BrokenNode;

/** The entry of that key, or undefined. */
export function entryOf(map: MapNode, key: string): Entry | undefined {
  return map.entries.find((entry) => entry.key === key);
}

/** What a node is, for a sentence. */
export function nodeWord(node: Node): string {
  switch (node.kind) {
    case 'map':
      return 'a map';
    case 'list':
      return 'a list';
    case 'broken':
      return 'something unreadable';
    case 'scalar':
      return node.type === 'nothing' && node.text === '' ? 'nothing' : quoted(node.text);
  }
}

/** Letters of a text that a sentence repeats. */
const MAX_QUOTED = 60;

/** A text in quotes as a sentence shows it. */
export function quoted(text: string): string {
  return `"${printable(text, MAX_QUOTED)}"`;
}

/** "a step", "an expectation". */
export function withArticle(words: string): string {
  return `${/^"?[aeiou]/.test(words) ? 'an' : 'a'} ${words}`;
}
