// What a step, an expectation or a note of a scenario may speak of: its tools, workers, labels and times, and the words
// that other folders own. Reports each unknown name with the nearest known.
import { formatClock } from './fields/clock.js';
import type { Named, Reference } from './fields/field.js';
import type { Problems } from './problems.js';
import { type Node, quoted } from './yaml/node.js';

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
    private readonly known: Readonly<Partial<Record<Named, ReadonlySet<string>>>>,
  ) {}

  check({ named, name, node }: Reference): void {
    const known = this.known[named];
    const other = named === 'tool' ? 'worker' : named === 'worker' ? 'tool' : null;
    if (known?.has(name) === false && other !== null && this.known[other]?.has(name)) {
      const message = `${quoted(name)} is a ${other}, and a ${named} is needed here`;
      this.problems.at(node, 'unknown', message, `known: ${listed(known)}`);
    } else if (known !== undefined) this.word(node, named, name, known);
  }

  /** Reports a word that is not among the known ones. */
  word(node: Node, what: string, word: string, known: ReadonlySet<string>): void {
    if (known.has(word)) return;
    const expected = known.size === 0 ? `there is no ${what}` : `known: ${listed(known)}`;
    const several = word.includes(',') ? `; several stand in brackets: [${word}]` : '';
    this.problems.unknown(node, what, { word, known }, `${expected}${several}`);
  }

  isTool(name: string): boolean {
    return this.known.tool?.has(name) ?? false;
  }

  isWorker(name: string): boolean {
    return this.known.worker?.has(name) ?? false;
  }
}

function listed(known: ReadonlySet<string>): string {
  return `${[...known].slice(0, MAX_LISTED).join(', ')}${known.size > MAX_LISTED ? ' …' : ''}`;
}

/** Reports that something lies outside the day. */
export function reportOutside(problems: Problems, node: Node, { fromMs, untilMs }: Frame, what = 'this'): void {
  const expected = `the day lasts from ${formatClock(0, fromMs)} until ${formatClock(untilMs, fromMs)}`;
  problems.at(node, 'value', `${what} lies outside the day`, expected);
}
