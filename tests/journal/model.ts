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
  /** Changes that are not kept yet, text null a drop. One that is being made is here too, until its outcome is known. */
  pending: readonly (readonly [key: number, text: string | null])[] = [];

  constructor(readonly kept: Contents = new Map()) {}

  /** Makes a change and holds the journal's outcome to the law. */
  change(journal: Journal, change: Change): Outcome {
    const before = this.pending;
    this.begin(change);
    const { type, slot, value } = change;
    const outcome = value === null ? journal.drop(type, slot) : journal.put(type, slot, value);
    if (outcome === 'failed') this.pending = before;
    if (!this.follow(journal)) throw new Error(`${outcome}, and the journal holds what it must not`);
    const isPending = this.pending.some(([key]) => key === keyOf(change));
    if (outcome !== 'failed' && (outcome === 'kept') === isPending) throw new Error(`${outcome}, which it is not`);
    return outcome;
  }

  /** To be called before a change reaches the journal. */
  begin(change: Change): void {
    const key = keyOf(change);
    const text = change.value === null ? null : textOf(change.value);
    const last = this.pending[this.pending.length - 1];
    const ahead = last?.[0] === key ? this.pending.slice(0, -1) : this.pending;
    const planned = ahead.findLast(([other]) => other === key);
    const without = planned === undefined ? (this.kept.get(key) ?? null) : planned[1];
    this.pending = without === text ? ahead : [...ahead, [key, text]];
  }

  /** Takes the pending changes as kept that no longer wait; false where the journal holds anything else. */
  follow(journal: Journal): boolean {
    const [waiting] = journal.inside().waiting as [readonly unknown[]];
    const count = this.pending.length - waiting.length;
    if (count < 0) return false;
    for (const [key, text] of this.pending.slice(0, count)) apply(this.kept, key, text);
    this.pending = this.pending.slice(count);
    return isSame(contentsOf(journal), this.kept);
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
