// A line of a YAML text and what stands above it: what tells of a slip.
import type { Span } from '../source.js';

interface TextLine {
  readonly start: number;
  readonly end: number;
  readonly indent: number;
  /** Without the white space before and behind it. */
  readonly body: string;
}

/** The line in which an error was found. */
export interface Line extends TextLine {
  /** The line before it that holds something, or null. */
  readonly before: TextLine | null;
  /** How far the lines are indented that this one may go on with: those above it, each less than the one below. */
  readonly indents: readonly number[];
  /** From the place of the error on. */
  readonly rest: string;
}

/** So many lines above are looked through. */
const MAX_LOOKED_BACK = 1000;

export function lineAt(text: string, offset: number): Line {
  const own = textLine(text, offset);
  let before: TextLine | null = null;
  const indents: number[] = [];
  let above = own;
  for (let looked = 0; above.start > 0 && indents.at(-1) !== 0 && looked < MAX_LOOKED_BACK; looked += 1) {
    above = textLine(text, above.start - 1);
    if (above.body === '' || above.body.startsWith('#')) continue;
    before ??= above;
    if (above.indent < (indents.at(-1) ?? Number.POSITIVE_INFINITY)) indents.push(above.indent);
  }
  return { ...own, before, indents, rest: text.slice(offset, own.end) };
}

function textLine(text: string, offset: number): TextLine {
  const start = text.lastIndexOf('\n', offset - 1) + 1;
  const newline = text.indexOf('\n', offset);
  const end = newline === -1 ? text.length : newline;
  const whole = text.slice(start, end);
  return { start, end, indent: whole.length - whole.trimStart().length, body: whole.trim() };
}

/** The line without its indentation. */
export function bodySpan({ start, indent, body }: TextLine): Span {
  return { start: start + indent, end: start + indent + body.length };
}
