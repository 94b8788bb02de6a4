// Gathers the problems of one scenario file: all of them, each once, in the order of their places, but never endlessly.
import { nearestWord } from './nearest.js';
import { printable } from './printable.js';
import type { Near, Problem, ProblemKind } from './problem.js';
import type { Source, Span } from './source.js';
import { type Node, quoted } from './yaml/node.js';

/** A reader may stop once so many problems are known; more are not kept. */
export const MAX_PROBLEMS = 100;

/** Letters of a sentence; it may repeat words of the file, which may be of any length. */
const MAX_SAID = 400;

export class Problems {
  private readonly found = new Map<string, Problem & { readonly start: number }>();
  private cut = false;

  constructor(private readonly source: Source) {}

  get size(): number {
    return this.found.size;
  }

  /** Reports what is wrong with a node; silent about a node that was reported as broken. */
  at(node: Node, kind: ProblemKind, message: string, expected: string, near: Near | null = null): void {
    if (node.kind === 'broken') return;
    const put = node.kind === 'scalar' && node.parameter !== null ? ` (put in for $${node.parameter})` : '';
    this.on(node.span, kind, `${message}${put}`, expected, near);
  }

  on(span: Span, kind: ProblemKind, message: string, expected: string, near: Near | null = null): void {
    const key = `${span.start} ${message}`;
    if (this.cut || this.found.has(key)) return;
    this.cut = this.found.size >= MAX_PROBLEMS;
    if (this.cut) return;
    const nearest = near === null ? null : nearestWord(near.word, near.known);
    const said = { message: printable(message, MAX_SAID), expected: printable(expected, MAX_SAID), nearest };
    const { source } = this;
    const { start } = span;
    const place = source.place(start);
    this.found.set(key, { kind, place, ...said, excerpt: source.excerpt(span), start });
  }

  /** `unknown WHAT "word"`, with the nearest known word. */
  unknown(node: Node, what: string, near: Near, expected: string): void {
    this.at(node, 'unknown', `unknown ${what} ${quoted(near.word)}`, expected, near);
  }

  /** In the order of their places. */
  list(): readonly Problem[] {
    const sorted = [...this.found.values()].sort((a, b) => a.start - b.start);
    const problems: Problem[] = sorted.map(({ start: _, ...problem }) => problem);
    const last = problems.at(-1);
    if (this.cut && last !== undefined) problems.push(tooMany(last));
    return problems;
  }
}

function tooMany(last: Problem): Problem {
  const expected = `mend the ${MAX_PROBLEMS} above first`;
  return { ...last, kind: 'limit', message: 'there are more problems', expected, nearest: null };
}
