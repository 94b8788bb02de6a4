// YAML text in flow style: a scalar with quotes only where it needs them, a map or a list on one line.
import type { Node } from './node.js';

/** What YAML 1.2 (core) takes for something other than a text, without signs that SAFE refuses anyway. */
const NOT_A_TEXT = /^(?:null|true|false|[+-]?[0-9].*|0[ox][0-9a-f]+)$/i;
const SAFE = /^[\p{L}\p{N}](?:[\p{L}\p{M}\p{N} ._/-]*[\p{L}\p{M}\p{N}.])?$/u;
/** A time or a duration: begins with a digit, and yet YAML reads a text. */
const TIMES = /^(?:(?:day \d )?\d\d:\d\d(?::\d\d(?:\.\d{3})?)?|-?(?:\d+h)?(?:\d+m)?(?:\d+s)?(?:\d+ms)?|\d+\/\d+)$/;

/** A text as a YAML scalar. */
export function flowText(text: string): string {
  if (TIMES.test(text) && text.length > 1) return text;
  return SAFE.test(text) && !NOT_A_TEXT.test(text) ? text : JSON.stringify(text);
}

/** Texts that are YAML already as a map on one line. */
export function flowMap(pairs: Iterable<readonly [key: string, value: string]>): string {
  return `{${[...pairs].map(([key, value]) => `${key}: ${value}`).join(', ')}}`;
}

export function flowList(items: readonly string[]): string {
  return `[${items.join(', ')}]`;
}

/** A node on one line. */
export function flowNode(node: Node): string {
  switch (node.kind) {
    case 'map':
      return flowMap(node.entries.map(({ key, value }) => [flowText(key), flowNode(value)] as const));
    case 'list':
      return flowList(node.items.map(flowNode));
    case 'scalar':
      return node.type === 'text' ? flowText(node.text) : node.text;
    case 'broken':
      return '';
  }
}
