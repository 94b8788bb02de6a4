// What a step, an expectation or a note of a scenario may speak of: its tools, workers, labels and times, and the words
// that other folders own. Reports each unknown name with the nearest known.

import { formatClock } from './fields/clock.js';
import type { Named, Reference } from './fields/field.js';
import { nearestWord } from './nearest.js';
import type { Problems } from './problems.js';
import type { Node } from './yaml/node.js';

/** When the day starts (ms after midnight) and how long it lasts (ms). */
export interface Frame {
  readonly fromMs: number;
  readonly untilMs: number;
}

/** Lists beyond so many words are not repeated in a sentence. */
const MAX_LISTED = 24;

export class Scope {
  /** known: what there is of each; a list that is not there is not checked, because it could not be read. */
  constructor(
    readonly problems: Problems,
    private readonly known: Readonly<Partial<Record<Named, readonly string[]>>>,
  ) {}

  check({ named, name, node }: Reference): void {
    const known = this.known[named];
    if (known !== undefined) this.word(node, named, name, known);
  }

  /** Reports a word that is not among the known ones. */
  word(node: Node, what: string, word: string, known: readonly string[]): void {
    if (known.includes(word)) return;
    const more = known.length > MAX_LISTED ? ' …' : '';
    const expected =
      known.length === 0 ? `there is no ${what}` : `known: ${known.slice(0, MAX_LISTED).join(', ')}${more}`;
    this.problems.unknown(node, what, word, expected, nearestWord(word, known));
  }

  isTool(name: string): boolean {
    return this.known.tool?.includes(name) ?? false;
  }

  isWorker(name: string): boolean {
    return this.known.worker?.includes(name) ?? false;
  }
}

/** Reports that something lies outside the day. */
export function reportOutside(problems: Problems, node: Node, { fromMs, untilMs }: Frame, what = 'this'): void {
  const expected = `the day lasts from ${formatClock(0, fromMs)} until ${formatClock(untilMs, fromMs)}`;
  problems.at(node, 'value', `${what} lies outside the day`, expected);
}
