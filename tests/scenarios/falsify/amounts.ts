// Moves of numbers and lengths of time: smaller and larger by the last digit and by a twentieth; a deadline only shorter, also by
// much. What is still true then says less than it could.
import type { Decimal } from '../../../src/scenario/expectation.js';
import { formatDuration, parseDuration } from '../../../src/scenario/fields/duration.js';
import { parseDecimal } from '../../../src/scenario/fields/number.js';
import type { Leaf } from './leaves.js';
import { entryOf, type Tree } from './tree.js';

export function numbersAbout(text: string, expectation: Tree, leaf: Leaf): readonly string[] {
  const { digits, places } = decimalOf(text);
  const twentieth = Math.max(1, Math.round(digits / 20));
  const least = leaf.path.at(-1) === 'session' ? 1 : 0;
  const other = otherBound(expectation, leaf);
  const bound = other === undefined ? undefined : decimalOf(other);
  if (bound !== undefined && bound.places !== places) throw new Error('both ends of a range have as many decimals');
  return [digits - 1, digits + 1, digits - twentieth, digits + twentieth]
    .filter((value) => value >= least && Number.isSafeInteger(value))
    .map((value) => decimalText(upTo(bound?.digits, value, leaf), places));
}

function decimalOf(text: string): Decimal {
  const decimal = parseDecimal(text);
  if (decimal === null) throw new Error(`"${text}" is no number`);
  return decimal;
}

function decimalText(digits: number, places: number): string {
  if (places === 0) return String(digits);
  const padded = String(digits).padStart(places + 1, '0');
  return `${padded.slice(0, -places)}.${padded.slice(-places)}`;
}

export function durationsAbout(text: string, expectation: Tree, leaf: Leaf): readonly string[] {
  const ms = durationOf(text);
  const shorter = [ms - 1, ms - 100, Math.round(ms * 0.95)];
  if (leaf.path.at(-1) === 'within') {
    return [...shorter, Math.round(ms / 2), Math.round(ms / 10), 1].filter((value) => value >= 1).map(formatDuration);
  }
  const other = otherBound(expectation, leaf);
  const bound = other === undefined ? undefined : durationOf(other);
  return [...shorter, ms + 1, ms + 100, Math.round(ms * 1.05)]
    .filter((value) => value >= 0)
    .map((value) => formatDuration(upTo(bound, value, leaf)));
}

function durationOf(text: string): number {
  const ms = parseDuration(text);
  if (ms === null) throw new Error(`"${text}" is no length of time`);
  return ms;
}

/** The other end of a range, where the leaf is one end of it. */
function otherBound(expectation: Tree, { path }: Leaf): string | undefined {
  const index = path.at(-1);
  if (typeof index !== 'number') return undefined;
  let tree: Tree = expectation;
  for (const step of path.slice(0, -1)) tree = typeof step === 'string' ? (entryOf(tree, step) ?? '') : '';
  return String((tree as readonly Tree[])[1 - index]);
}

/** One end of a range is moved no further than to the other. */
function upTo(bound: number | undefined, value: number, { path }: Leaf): number {
  if (bound === undefined) return value;
  return path.at(-1) === 0 ? Math.min(value, bound) : Math.max(value, bound);
}
