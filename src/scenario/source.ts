// The text of a scenario file with its lines, so that every offset has a place and a line to show.
import type { Place } from './place.js';
import { printable } from './printable.js';
import type { Excerpt } from './problem.js';

/** A stretch of the text: offsets in UTF-16 units, end not included. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** Of a longer line so much is shown, beginning so far before the place. */
const MAX_SHOWN = 110;
const SHOWN_BEFORE = 40;

export class Source {
  private readonly lineStarts: number[] = [0];
  private counted = { lineStart: 0, offset: 0, count: 0 };

  constructor(
    readonly file: string,
    readonly text: string,
  ) {
    for (let end = text.indexOf('\n'); end !== -1; end = text.indexOf('\n', end + 1)) this.lineStarts.push(end + 1);
  }

  /** Columns count characters, not UTF-16 units. */
  place(offset: number): Place {
    const index = this.lineIndex(offset);
    return { file: this.file, line: index + 1, column: this.charactersTo(offset, this.lineStart(index)) + 1 };
  }

  excerpt({ start, end }: Span): Excerpt {
    const index = this.lineIndex(start);
    const lineStart = this.lineStart(index);
    const lineEnd = this.lineEnd(index);
    const whole = lineEnd - lineStart <= MAX_SHOWN;
    const from = whole ? lineStart : this.boundary(Math.max(lineStart, start - SHOWN_BEFORE));
    const to = whole ? lineEnd : this.boundary(Math.min(lineEnd, from + MAX_SHOWN));
    const front = from > lineStart ? '…' : '';
    const marked = Math.min(Math.max(start, end), to);
    return {
      text: `${front}${printable(this.text.slice(from, to), MAX_SHOWN + 1)}${to < lineEnd ? '…' : ''}`,
      column: front.length + characterCount(this.text, from, Math.min(start, to)) + 1,
      width: Math.max(1, characterCount(this.text, Math.min(start, to), marked)),
    };
  }

  /** Goes on from where it counted last: places are mostly asked for in order, and a file may be one long line. */
  private charactersTo(offset: number, lineStart: number): number {
    const { counted } = this;
    const from =
      counted.lineStart === lineStart && counted.offset <= offset ? counted : { offset: lineStart, count: 0 };
    const count = from.count + characterCount(this.text, from.offset, offset);
    this.counted = { lineStart, offset, count };
    return count;
  }

  private lineIndex(offset: number): number {
    let low = 0;
    let high = this.lineStarts.length;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (this.lineStart(middle) <= offset) low = middle;
      else high = middle;
    }
    return low;
  }

  private lineStart(index: number): number {
    return this.lineStarts[index] ?? this.text.length;
  }

  private lineEnd(index: number): number {
    const next = this.lineStarts[index + 1];
    if (next === undefined) return this.text.length;
    return this.text[next - 2] === '\r' ? next - 2 : next - 1;
  }

  /** The offset itself, or the next where it would split a character. */
  private boundary(offset: number): number {
    return isSecondHalf(this.text.charCodeAt(offset)) ? offset + 1 : offset;
  }
}

function characterCount(text: string, from: number, to: number): number {
  let count = 0;
  for (let offset = from; offset < to; offset += 1) if (!isSecondHalf(text.charCodeAt(offset))) count += 1;
  return count;
}

function isSecondHalf(unit: number): boolean {
  return unit >= 0xdc00 && unit <= 0xdfff;
}
