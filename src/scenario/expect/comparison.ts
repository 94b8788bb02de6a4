// How a quantity is compared, and with what: numbers exactly as written, trigger time as a length of time.
import type { Comparison, Decimal } from '../expectation.js';
import { parseDuration } from '../fields/duration.js';
import { type Found, nodeField, numberHint } from '../fields/field.js';
import { parseDecimal } from '../fields/number.js';
import type { Problems } from '../problems.js';
import type { MapNode, Node } from '../yaml/node.js';

/** What the numbers of a quantity are: any decimal, whole ones, or lengths of time (in ms). */
export type Unit = 'decimal' | 'whole' | 'duration';

const UNIT_TEXT: Readonly<Record<Unit, string>> = {
  decimal: 'a number in plain digits, with at most six decimals',
  whole: 'a whole number in plain digits',
  duration: 'a length of time such as 12s, 5m, 1h30m or 250ms',
};

/** The words of a comparison; "is" and "exactly" mean the same. */
export const COMPARISONS = ['is', 'exactly', 'between', 'at least', 'at most', 'above', 'below'] as const;
export type ComparisonWord = (typeof COMPARISONS)[number];

const operand = nodeField({
  anyOf: [{ type: 'number' }, { type: 'string' }, { type: 'array' }],
  description: 'a number, or [low, high]',
}).optional();

/** The comparisons as optional fields, of which exactly one is wanted. */
export const COMPARISON_FIELDS = Object.fromEntries(COMPARISONS.map((word) => [word, operand])) as Record<
  ComparisonWord,
  typeof operand
>;

/** The one comparison among the values of an expectation, or null, which is reported at the map. */
export function pickComparison(
  values: Readonly<Record<string, Found<unknown> | undefined>>,
  unit: Unit,
  map: MapNode,
  problems: Problems,
): Comparison | null {
  const given = COMPARISONS.filter((word) => values[word] !== undefined);
  const [word, second] = given;
  const expected = `one of ${COMPARISONS.join(', ')}`;
  if (word === undefined) {
    problems.at(map, 'missing', 'this does not say what the quantity is compared with', expected);
    return null;
  }
  if (second !== undefined) {
    problems.at(values[second]?.node ?? map, 'unexpected', `a second comparison, "${second}"`, expected);
    return null;
  }
  return readComparison(word, values[word]?.node ?? map, unit, problems);
}

export function readComparison(word: ComparisonWord, node: Node, unit: Unit, problems: Problems): Comparison | null {
  if (word === 'between') return readBetween(node, unit, problems);
  const value = readAmount(node, unit, problems);
  return value === null ? null : { is: word === 'is' ? 'exactly' : word, value };
}

function readBetween(node: Node, unit: Unit, problems: Problems): Comparison | null {
  const [lowNode, highNode, ...others] = node.kind === 'list' ? node.items : [];
  if (lowNode === undefined || highNode === undefined || others.length > 0) {
    problems.at(node, 'value', 'this is no range', `expected [low, high], each ${UNIT_TEXT[unit]}`);
    return null;
  }
  const low = readAmount(lowNode, unit, problems);
  const high = readAmount(highNode, unit, problems);
  if (low === null || high === null) return null;
  if (!isAbove(low, high)) return { is: 'between', low, high };
  problems.at(node, 'value', 'nothing lies between these', 'expected [low, high], the lower first');
  return null;
}

function readAmount(node: Node, unit: Unit, problems: Problems): Decimal | null {
  const amount = node.kind === 'scalar' ? parseAmount(node.text, node.type, unit) : null;
  if (amount === null) {
    const given = node.kind === 'scalar' ? `${node.text === '' ? 'nothing' : node.text} is` : 'this is';
    const hint = node.kind === 'scalar' && unit !== 'duration' ? numberHint(node) : '';
    problems.at(node, 'value', `${given.slice(0, 60)} no amount`, `expected ${UNIT_TEXT[unit]}${hint}`);
  }
  return amount;
}

function parseAmount(text: string, type: string, unit: Unit): Decimal | null {
  if (unit === 'duration') {
    const ms = type === 'text' ? parseDuration(text) : null;
    return ms === null ? null : { digits: ms, places: 0 };
  }
  const decimal = type === 'number' ? parseDecimal(text) : null;
  return unit === 'whole' && decimal !== null && decimal.places > 0 ? null : decimal;
}

function isAbove(a: Decimal, b: Decimal): boolean {
  return BigInt(a.digits) * 10n ** BigInt(b.places) > BigInt(b.digits) * 10n ** BigInt(a.places);
}
