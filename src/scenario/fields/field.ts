// A field of the language as a zod definition: it takes a node of the file and gives the value together with the node,
// so that whoever finds fault with the value later can still point at it. What the field looks like in JSON Schema, and
// what an error says was expected, come from the same place.
import { z } from 'zod';
import type { Near } from '../problem.js';
import { type Node, nodeWord, type ScalarNode } from '../yaml/node.js';

/** What a name in a scenario may stand for. */
export type Named =
  | 'tool'
  | 'worker'
  | 'tool or worker'
  | 'label'
  | 'requirement'
  | 'event'
  | 'level'
  | 'frame'
  | 'refusal'
  | 'what-if';

/** A name that is used; whether there is such a one is asked of the scope. */
export interface Reference {
  readonly named: Named;
  readonly name: string;
  readonly node: Node;
}

export interface Found<T> {
  readonly value: T;
  readonly node: Node;
  /** The names that the value uses. */
  readonly references: readonly Reference[];
}

/** Why a node is not what a field wants. */
export interface Refusal {
  readonly refused: string;
  readonly expected: string;
  readonly near: Near | null;
}

/** What a field's reader reports to. */
export interface Reading {
  refuse(node: Node, why: Refusal): void;
  refer(named: Named, name: string, node: Node): void;
}

/** What a field of JSON Schema may say; description completes "expected …". */
export interface FieldMeta {
  readonly description: string;
  readonly type?: 'string' | 'number' | 'integer' | 'object' | 'array';
  readonly anyOf?: readonly Readonly<Record<string, unknown>>[];
  readonly pattern?: string;
  readonly enum?: readonly string[];
  readonly minimum?: number;
  readonly maximum?: number;
  readonly multipleOf?: number;
}

export type Field<T> = z.ZodType<Found<T>, Node>;

/** A field that reads any node; null where it could not, after having said why. */
export function field<T extends NonNullable<unknown>>(
  meta: FieldMeta,
  read: (node: Node, reading: Reading) => T | null,
): Field<T> {
  const anyNode = z.custom<Node>((given) => given !== undefined).meta({ ...meta });
  return anyNode.transform((node, context) => {
    const references: Reference[] = [];
    const value = read(node, {
      refuse: (at, why) => context.addIssue({ code: 'custom', params: { at, why } satisfies RefusedAt }),
      refer: (named, name, at) => references.push({ named, name, node: at }),
    });
    return value === null ? z.NEVER : { value, node, references };
  });
}

/** A field that takes any node as it is, for something that is read by other means. */
export function nodeField(meta: FieldMeta): Field<Node> {
  return field(meta, (node) => node);
}

/** What an issue of such a field carries. */
export interface RefusedAt {
  readonly at: Node;
  readonly why: Refusal;
}

/** A field that reads one scalar of the given type; read gives the value or says why not. */
export function scalarField<T extends NonNullable<unknown>>(
  meta: FieldMeta,
  type: 'text' | 'number',
  read: (text: string) => T | Refusal,
): Field<T> {
  return field(meta, (node, reading) => {
    const value = readScalar(node, type, meta, read);
    if (!isRefusal(value)) return value;
    reading.refuse(node, value);
    return null;
  });
}

/** The value of a scalar of the given type, or why it has none. */
export function readScalar<T>(
  node: Node,
  type: 'text' | 'number',
  meta: FieldMeta,
  read: (text: string) => T | Refusal,
): T | Refusal {
  // Of a text that only a certain pattern is, its own reader says best why another one is not.
  const known = type === 'text' && (meta.pattern !== undefined || meta.enum !== undefined);
  const fits = node.kind === 'scalar' && (node.type === type || (known && node.text !== ''));
  return fits ? read(node.text) : refusal(wrongType(node, type), meta.description + hint(node, type));
}

export function refusal(refused: string, expected: string, near: Near | null = null): Refusal {
  return { refused, expected, near };
}

export function isRefusal(value: unknown): value is Refusal {
  return typeof value === 'object' && value !== null && 'refused' in value;
}

function wrongType(node: Node, wanted: 'text' | 'number'): string {
  if (node.kind !== 'scalar' || node.text === '') return `here stands ${nodeWord(node)}`;
  return wanted === 'number' ? `${nodeWord(node)} is no number` : `${nodeWord(node)} is no text to YAML`;
}

/** How the same is written as what is wanted, where that can be told. */
function hint(node: Node, wanted: 'text' | 'number'): string {
  if (node.kind !== 'scalar' || node.text === '') return '';
  return wanted === 'text' ? ', here in quotes' : numberHint(node);
}

/** For a text that begins like a number: "12.0", 4,6 or 12.0 m/s². */
export function numberHint({ text, plain }: ScalarNode): string {
  const [, number = '', fraction, rest = ''] =
    /^(-?\d{1,15}(?:\.\d{1,6})?)(?:,(\d{1,6}))?([^\d,.].{0,20})?$/.exec(text) ?? [];
  if (number === '') return '';
  const decimal = fraction === undefined ? number : `${number}.${fraction}`;
  if (fraction !== undefined) return `, with a point and no comma: ${decimal}`;
  return rest === '' && plain ? '' : `, without ${rest === '' ? 'quotes' : 'a unit'}: ${decimal}`;
}
