// Which of its words a map is about: a step has one verb, an expectation one form, a change of a what-if one kind.
import { nearestWord } from './nearest.js';
import type { Problems } from './problems.js';
import { type Entry, type MapNode, quoted, withArticle } from './yaml/node.js';

interface Vocabulary {
  /** For sentences: "step" and "verb". */
  readonly thing: string;
  readonly word: string;
  /** The words of which one must stand there as a key. */
  readonly words: readonly string[];
  /** Keys that may stand beside them and are surely none of them misspelt. */
  readonly companions: readonly string[];
}

/** The entry whose key is the word; null where there is none or more than one, which is reported. */
export function pickWord(map: MapNode, vocabulary: Vocabulary, problems: Problems): Entry | null {
  const { thing, word, words } = vocabulary;
  const [first, second] = map.entries.filter(({ key }) => words.includes(key));
  if (first !== undefined && second === undefined) return first;
  const expected = `${withArticle(thing)} has one of these ${word}s: ${words.join(', ')}`;
  if (first !== undefined && second !== undefined) {
    const message = `a second ${word}, ${quoted(second.key)}, beside ${quoted(first.key)}`;
    problems.on(second.keySpan, 'unexpected', message, expected);
    return null;
  }
  const unknown = likeliest(map, vocabulary);
  if (unknown === null) {
    problems.at(map, 'missing', `this ${thing} has no ${word}`, expected);
  } else {
    const { key, keySpan } = unknown;
    problems.on(keySpan, 'unknown', `unknown ${word} ${quoted(key)}`, expected, { word: key, known: words });
  }
  return null;
}

/** Of so many unknown keys the likeliest is looked for. */
const MAX_STRANGE = 10;

/** The key that was most likely meant as one of the words. */
function likeliest(map: MapNode, { words, companions }: Vocabulary): Entry | null {
  const strange = map.entries.filter(({ key }) => !companions.includes(key)).slice(0, MAX_STRANGE);
  return strange.find(({ key }) => nearestWord(key, words) !== null) ?? strange[0] ?? null;
}
