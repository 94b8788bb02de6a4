// By how much a quantity rises: a number, a range, or a comparison in a map of its own.
import type { Comparison } from '../expectation.js';
import { pickWord } from '../pick-word.js';
import type { Problems } from '../problems.js';
import type { Node } from '../yaml/node.js';
import { COMPARISONS, readComparison, type Unit } from './comparison.js';

/** null where there was a problem, which is reported. */
export function riseOf(node: Node, unit: Unit, problems: Problems): Comparison | null {
  if (node.kind === 'list') return readComparison('between', node, unit, problems);
  if (node.kind !== 'map') return readComparison('exactly', node, unit, problems);
  const vocabulary = { thing: 'rise', word: 'comparison', words: COMPARISONS, companions: [] };
  const picked = pickWord(node, vocabulary, problems);
  const word = COMPARISONS.find((each) => each === picked?.key);
  for (const { key, keySpan } of node.entries) {
    if (picked === null || key === picked.key) continue;
    problems.on(keySpan, 'unexpected', 'a rise has one comparison', 'leave this out');
  }
  return picked === null || word === undefined ? null : readComparison(word, picked.value, unit, problems);
}
