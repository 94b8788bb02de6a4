// What the YAML library finds wrong with a text, said for somebody who writes scenarios and not YAML: what is likely to have
// slipped in that line, and how it is written instead.
import type { YAMLError } from 'yaml';
import { printable } from '../printable.js';
import type { Span } from '../source.js';
import { bodySpan, type Line, lineAt } from './line.js';

export interface Slip {
  readonly span: Span;
  readonly message: string;
  readonly expected: string;
}

type Say = (line: Line, error: YAMLError) => Slip | null;

/** Letters of the line that a sentence repeats. */
const MAX_REPEATED = 40;

/** What to report of an error: where, what, and what is expected instead. */
export function slipOf(error: YAMLError, text: string): Slip {
  const line = lineAt(text, Math.max(0, error.pos[0]));
  for (const say of SAYINGS[error.code] ?? []) {
    const slip = say(line, error);
    if (slip !== null) return slip;
  }
  const [message = ''] = error.message.split('\n');
  return { span: spanOf(error), message, expected: HELP[error.code] ?? '' };
}

const HELP: Partial<Record<YAMLError['code'], string>> = {
  MISSING_CHAR: 'a bracket, a quote, or a space after a colon or a comma is missing here or above',
  BAD_DQ_ESCAPE: 'a backslash twice, or the text in single quotes',
};

/** Several steps of which the second lacks its dash; a dash without a space; a line that is indented differently. */
const indented: Say = (line) => {
  const { body, indent, indents, before } = line;
  const span = bodySpan(line);
  if (before?.body.startsWith('- ') && !body.startsWith('- ')) {
    if (/^-[^\s-]/.test(body)) return { span, message: 'a space is missing behind the dash', expected: dashed(body) };
    if (indent === before.indent) return { span, message: 'a dash is missing before this', expected: dashed(body) };
  }
  if (indents.length === 0 || indents.includes(indent)) return null;
  const columns = indents.map((above) => above + 1).reverse();
  const expected = `column ${columns.join(' or ')}, as the lines above that it belongs to`;
  return { span, message: `this line begins in column ${indent + 1}, where none above it does`, expected };
};

function dashed(body: string): string {
  return `a dash and a space before each item: - ${printable(body.replace(/^-/, ''), MAX_REPEATED)}`;
}

/** `- at: 08:00, leave: Edda` */
const unbraced: Say = (line) => {
  const { body } = line;
  if (!/^- [\w -]+: [^{]*, [\w -]+:/.test(body)) return null;
  const expected = `- {${printable(body.replace(/^- |\}$/g, ''), MAX_REPEATED)}}`;
  return { span: bodySpan(line), message: 'several keys on one line stand in braces', expected };
};

/** `title: Lock: the breaker`, `ask: Why: because?`, `leave: Edda for: 45m` */
const twoColons: Say = ({ rest }, error) => {
  if (!/^[^{[]*?: /.test(rest)) return null;
  const expected = 'a comma before the next key; or, where the colon belongs to the text, the text in quotes';
  return { span: spanOf(error), message: 'a second colon in one value', expected };
};

/** A key with a value, and indented below it more keys. */
const keysBelow: Say = (_, error) => {
  const expected = 'one colon less; or this line or the next is indented wrongly';
  return { span: spanOf(error), message: 'this is a value, and keys follow as if it were none', expected };
};

/** `seed:7`, and whatever else is no key with a value. */
const keyless: Say = (line) => {
  const { body } = line;
  const span = bodySpan(line);
  const [, key, value] = /^(?:- )?([\w -]{1,40}):(\S.*)$/.exec(body) ?? [];
  const expected =
    value === undefined ? 'a key, a colon, a space and a value' : `${key}: ${printable(value, MAX_REPEATED)}`;
  const message = value === undefined ? 'this is no key with a value' : 'a space is missing behind the colon';
  return { span, message, expected };
};

/** `'What's up?'`, `"a" b` */
const behindAQuote: Say = (_, error) => {
  if (!error.message.includes('at node end')) return null;
  const expected =
    'a comma before the next key; a quote inside of a text twice, or the text in quotes of the other kind';
  return { span: spanOf(error), message: 'this stands behind the end of a value', expected };
};

const commaTooMany: Say = (_, error) => {
  if (!error.message.startsWith('Unexpected ,')) return null;
  return { span: spanOf(error), message: 'a comma too many', expected: 'one comma between two keys or items' };
};

/** `say: @Edda` */
const firstSign: Say = ({ rest }, error) => {
  const message = `a text without quotes cannot begin with ${printable(rest.slice(0, 1), 1)}`;
  const [value = ''] = /^[^,}\]]*/.exec(rest) ?? [];
  return { span: spanOf(error), message, expected: `in quotes: "${printable(value.trim(), MAX_REPEATED)}"` };
};

const spaceBeforeComment: Say = (_, error) => {
  if (!error.message.startsWith('Comments must')) return null;
  return { span: spanOf(error), message: 'a space is missing before the #', expected: 'a comment behind a space' };
};

const tab: Say = ({ start, rest }, error) => ({
  span: rest.startsWith('\t') ? { start: error.pos[0], end: error.pos[0] + 1 } : { start, end: start + 1 },
  message: 'a tab indents this line',
  expected: 'lines are indented with spaces',
});

const SAYINGS: Partial<Record<YAMLError['code'], readonly Say[]>> = {
  BAD_INDENT: [indented],
  TAB_AS_INDENT: [tab],
  BLOCK_AS_IMPLICIT_KEY: [unbraced, twoColons, indented, keysBelow],
  BLOCK_IN_FLOW: [twoColons],
  MULTILINE_IMPLICIT_KEY: [keyless],
  UNEXPECTED_TOKEN: [behindAQuote, commaTooMany],
  BAD_SCALAR_START: [firstSign],
  MISSING_CHAR: [spaceBeforeComment],
};

function spanOf({ pos: [start, end] }: YAMLError): Span {
  return { start: Math.max(0, start), end: Math.max(0, end) };
}
