// What a journal must hold: what is kept, and the changes that wait, in the order in which they will be kept. Its law (KEP-1)
// is stronger than "each key has its last value or the one before": the changes kept are always the first so many.
import type { Journal, Outcome } from '../../src/journal/journal.js';

/** A change of a key; value null is a drop. */
export interface Change {
  readonly type: number;
  readonly slot: number;
  readonly value: Uint8Array | null;
}

/** Keys are type·256 + slot, values are text, so that maps compare. */
export type Contents = Map<number, string>;

/** Types that tests use. */
export const TYPES = [1, 2, 3];

export class Model {
  /** null: a drop. A change that is being made is here too, until its outcome is known. */
  readonly pending = new Map<number, string | null>();

  constructor(readonly kept: Contents = new Map()) {}

  /** Makes a change and holds the journal's outcome to the law. */
  change(journal: Journal, change: Change): Outcome {
    const before = new Map(this.pending);
    this.begin(change);
    const { type, slot, value } = change;
    const outcome = value === null ? journal.drop(type, slot) : journal.put(type, slot, value);
    const key = keyOf(change);
    if (!this.follow(journal)) throw new Error(`${outcome}, and the journal holds what it must not`);
    if ((outcome === 'kept') === this.pending.has(key)) throw new Error(`${outcome}, which it is not`);
    if (outcome === 'failed') {
      this.pending.delete(key);
      const earlier = before.get(key);
      if (earlier !== undefined && this.kept.get(key) !== earlier) this.pending.set(key, earlier);
    }
    return outcome;
  }

  /** To be called before a change reaches the journal. */
  begin(change: Change): void {
    const key = keyOf(change);
    const text = change.value === null ? null : textOf(change.value);
    this.pending.delete(key);
    if ((this.kept.get(key) ?? null) !== text) this.pending.set(key, text);
  }

  /** Takes the first pending changes as kept that the journal has kept; false where it holds anything else. */
  follow(journal: Journal): boolean {
    const count = firstKept(contentsOf(journal), this);
    if (count === null) return false;
    for (const [key, text] of [...this.pending].slice(0, count)) {
      apply(this.kept, key, text);
      this.pending.delete(key);
    }
    return true;
  }
}

/** How many of the pending changes, from the first on, are in the contents beside what is kept; null: they are something else. */
export function firstKept(contents: Contents, { kept, pending }: Model): number | null {
  if (isSame(contents, kept)) return 0;
  const expected = new Map(kept);
  let count = 0;
  for (const [key, text] of pending) {
    count += 1;
    apply(expected, key, text);
    if (isSame(contents, expected)) return count;
  }
  return null;
}

export function contentsOf(journal: Journal): Contents {
  const contents: Contents = new Map();
  for (const type of TYPES) {
    for (const { slot, value } of journal.entries(type)) contents.set(type * 256 + slot, textOf(value));
  }
  return contents;
}

function keyOf({ type, slot }: Change): number {
  return type * 256 + slot;
}

function textOf(value: Uint8Array): string {
  return Buffer.from(value.buffer, value.byteOffset, value.length).toString('latin1');
}

function apply(contents: Contents, key: number, text: string | null): void {
  if (text === null) contents.delete(key);
  else contents.set(key, text);
}

function isSame(one: Contents, other: Contents): boolean {
  if (one.size !== other.size) return false;
  for (const [key, text] of one) if (other.get(key) !== text) return false;
  return true;
}
