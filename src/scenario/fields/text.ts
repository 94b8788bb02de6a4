// Names, labels and sentences of a scenario.
import { type Node, quoted } from '../yaml/node.js';
import { looksLikeClock } from './clock.js';
import {
  type Field,
  field,
  isRefusal,
  type Named,
  type Reading,
  type Refusal,
  readScalar,
  refusal,
  scalarField,
} from './field.js';

const MAX_NAME_LETTERS = 40;
const MAX_SENTENCE_LETTERS = 1000;

/** The trace calls the world itself so. */
const RESERVED_NAME = 'bench';
/** Letters, digits, signs, and single spaces between them. */
const PRINTABLE = /^[\p{L}\p{M}\p{N}\p{P}\p{S}]+(?: [\p{L}\p{M}\p{N}\p{P}\p{S}]+)*$/u;

const NAME = 'a name';
const NAME_EXPECTED = `a name of 1 to ${MAX_NAME_LETTERS} printable letters, with single spaces between words`;

/** Why a text cannot be the name of a tool, a worker, a row's parameter or a what-if; null where it can. */
export function nameRefusal(text: string): Refusal | null {
  if (text === RESERVED_NAME) return refusal(`${quoted(text)} is the bench's own name in a trace`, 'another name');
  if (text.length <= MAX_NAME_LETTERS && PRINTABLE.test(text)) return null;
  return refusal(text === '' ? 'a name is empty' : 'this cannot be a name', NAME_EXPECTED);
}

const ARTICLE = { tool: "a tool's name", worker: "a worker's name", 'tool or worker': "a tool's or a worker's name" };

function hasArticle(named: Named): named is keyof typeof ARTICLE {
  return Object.hasOwn(ARTICLE, named);
}

/** The name of one tool or worker. */
export function nameOf(named: keyof typeof ARTICLE): Field<string> {
  return field({ type: 'string', description: ARTICLE[named] }, (node, reading) => readName(node, named, reading));
}

/** A word that is checked against the known ones of its sort, or is one of `more`. */
export function nameUsed(named: Named, description: string, more: readonly string[] = []): Field<string> {
  return field({ type: 'string', description }, (node, reading) => {
    if (node.kind === 'scalar' && more.includes(node.text)) return node.text;
    return readName(node, named, reading);
  });
}

/** A word whose known ones depend on what stands beside it; it is checked there. */
export function word(description: string): Field<string> {
  return scalarField({ type: 'string', description }, 'text', (text) => nameRefusal(text) ?? text);
}

/** One name or a list of different ones. */
export function namesOf(named: Named, description: string): Field<readonly string[]> {
  const meta = { description, anyOf: [{ type: 'string' }, { type: 'array', items: { type: 'string' } }] };
  return field(meta, (node, reading) => {
    const nodes = node.kind === 'list' ? node.items : [node];
    if (nodes.length === 0) reading.refuse(node, refusal('this list is empty', description));
    const names = new Set<string>();
    for (const item of nodes) {
      const name = readName(item, named, reading);
      if (name !== null && names.has(name))
        reading.refuse(item, refusal(`${quoted(name)} stands here twice`, description));
      if (name !== null) names.add(name);
    }
    return names.size === nodes.length && names.size > 0 ? [...names] : null;
  });
}

/** A name that is used, or null where the node is none. */
export function readName(node: Node, named: Named, reading: Reading): string | null {
  const description = hasArticle(named) ? ARTICLE[named] : NAME;
  const name = readScalar(node, 'text', { description }, (text) => nameRefusal(text) ?? text);
  if (isRefusal(name)) {
    reading.refuse(node, name);
    return null;
  }
  reading.refer(named, name, node);
  return name;
}

const LABEL = `a label: ${NAME} of at most ${MAX_NAME_LETTERS} letters that is no time and not "end"`;

/** What a step is called by what-ifs, expectations and notes. */
export const label: Field<string> = scalarField({ type: 'string', description: LABEL }, 'text', (text) => {
  if (text === 'end' || looksLikeClock(text)) return refusal(`${quoted(text)} cannot be a label`, LABEL);
  return nameRefusal(text) ?? text;
});

/** The label of steps of the day. */
export const labelled: Field<string> = nameUsed('label', 'the label of a step, which stands there after "as"');

/** Something that is said: without control characters; white space at its ends does not count. */
export function sentence(what: string, lines: 'one line' | 'any lines' = 'any lines'): Field<string> {
  const description = `${what}, a text of 1 to ${MAX_SENTENCE_LETTERS} letters`;
  const forbidden = lines === 'one line' ? /[\p{Cc}\p{Cs}]/u : /(?!\n)[\p{Cc}\p{Cs}]/u;
  return scalarField({ type: 'string', description }, 'text', (given) => {
    const text = given.trim();
    const good = text !== '' && text.length <= MAX_SENTENCE_LETTERS && !forbidden.test(text);
    return good ? text : refusal('this cannot be said', description);
  });
}
