// Brackets and quotes that are opened and not closed, each reported where it opens (YAML itself only notices further down),
// and brackets that close nothing.
import type { Problems } from '../problems.js';
import type { Lexeme } from './lexemes.js';

/** Closing bracket → opening bracket. */
const OPENING: Readonly<Record<string, string>> = { '}': '{', ']': '[' };

interface Open {
  readonly bracket: string;
  readonly offset: number;
}

export class Unclosed {
  private readonly open: Open[] = [];
  private reported = false;

  constructor(
    private readonly text: string,
    private readonly problems: Problems,
  ) {}

  /** To be called with every lexeme of the text in order. */
  see({ lexeme, type, offset }: Lexeme): void {
    if (type === 'flow-map-start' || type === 'flow-seq-start') this.open.push({ bracket: lexeme, offset });
    else if (type === 'flow-map-end' || type === 'flow-seq-end') this.close(lexeme, offset);
    else if (type === 'flow-error-end') this.reportOpen();
    else if (type === 'double-quoted-scalar' && !isClosedDouble(lexeme)) this.report('"', offset);
    else if (type === 'single-quoted-scalar' && !isClosedSingle(lexeme)) this.report("'", offset);
  }

  /** Whether there was something; to be called after the last lexeme. */
  found(): boolean {
    if (!this.reported) this.reportOpen();
    return this.reported;
  }

  private close(closing: string, offset: number): void {
    const opening = OPENING[closing];
    const match = this.open.findLastIndex(({ bracket }) => bracket === opening);
    if (match === -1) {
      this.reported = true;
      const span = { start: offset, end: offset + 1 };
      this.problems.on(span, 'yaml', `this ${closing} closes nothing`, `a ${opening} before it, or leave it out`);
      return;
    }
    const [, ...inner] = this.open.splice(match);
    for (const { bracket, offset: start } of inner) this.report(bracket, start);
  }

  /** Of several that are open the innermost is the one to mend. */
  private reportOpen(): void {
    const innermost = this.open.at(-1);
    this.open.length = 0;
    if (innermost !== undefined) this.report(innermost.bracket, innermost.offset);
  }

  private report(sign: string, offset: number): void {
    this.reported = true;
    const end = this.text.indexOf('\n', offset);
    const span = { start: offset, end: end === -1 ? this.text.length : end };
    const isQuote = sign === '"' || sign === "'";
    const expected = isQuote
      ? `a second ${sign} behind the text`
      : `a ${sign === '{' ? '}' : ']'} behind what it holds`;
    const indent = isQuote ? '' : ', and whatever it holds indented further than the line it opens in';
    const comment = !isQuote && / #/.test(this.text.slice(offset, span.end)) ? '; what follows " #" is a comment' : '';
    this.problems.on(span, 'yaml', `this ${sign} is not closed`, `${expected}${indent}${comment}`);
  }
}

/** The last quote closes unless an odd number of backslashes stands before it. */
function isClosedDouble(lexeme: string): boolean {
  const [, backslashes] = /(\\*)"$/.exec(lexeme) ?? [];
  return lexeme.length > 1 && backslashes !== undefined && backslashes.length % 2 === 0;
}

/** Two quotes in a row stand for one; the opening one is not counted. */
function isClosedSingle(lexeme: string): boolean {
  const [run = ''] = /'*$/.exec(lexeme.slice(1)) ?? [];
  return run.length % 2 === 1;
}
