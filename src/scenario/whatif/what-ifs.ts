// The what-ifs of a scenario: each a name with a list of changes, made one after the other to the day as written.
import { entriesOf, mapsOf } from '../collections.js';
import { readFields } from '../fields/read-fields.js';
import { nameRefusal } from '../fields/text.js';
import { MAX_CHANGES, MAX_EVENTS_IN_ALL, MAX_WHAT_IFS } from '../limits.js';
import { pickWord } from '../pick-word.js';
import type { Problems } from '../problems.js';
import type { Frame, Scope } from '../scope.js';
import { inOrder } from '../steps.js';
import { type MapNode, type Node, withArticle } from '../yaml/node.js';
import type { Change, Draft } from './change.js';
import { drop } from './drop.js';
import { give } from './give.js';
import { anotherMagnitude } from './magnitude.js';
import { shift } from './shift.js';
import { use } from './use.js';

/** Every change of the language, in the order in which they are listed to a person. */
export const CHANGES: ReadonlyMap<string, Change> = new Map(
  [anotherMagnitude, shift, drop, give, use].map((each) => [each.word, each]),
);

const WORDS = [...CHANGES.keys()];
const COMPANIONS = ['to', 'by', 'in'];

/** The names of the what-ifs of a file. */
export function whatIfNames(node: Node | undefined): readonly string[] {
  return node?.kind === 'map' ? node.entries.map(({ key }) => key) : [];
}

/** The day under each what-if, by its name. */
export function applyWhatIfs(
  node: Node | undefined,
  asWritten: Draft,
  frame: Frame,
  scope: Scope,
): ReadonlyMap<string, Draft> {
  const drafts = new Map<string, Draft>();
  if (node === undefined || tooMuch(node, asWritten, scope.problems)) return drafts;
  for (const { key, keySpan, value } of entriesOf(node, 'a list of changes', MAX_WHAT_IFS, scope.problems)) {
    const why = nameRefusal(key);
    if (why !== null) scope.problems.on(keySpan, 'value', why.refused, `expected ${why.expected}`);
    const maps = mapsOf(value, 'a change', MAX_CHANGES, scope.problems);
    const draft = maps.reduce((before, map) => applyOne(map, before, frame, scope), asWritten);
    drafts.set(key, { ...draft, events: inOrder(draft.events) });
  }
  return drafts;
}

function tooMuch(node: Node, { events }: Draft, problems: Problems): boolean {
  const days = 1 + whatIfNames(node).length;
  if (days * events.length <= MAX_EVENTS_IN_ALL) return false;
  problems.at(node, 'limit', `${days} days of ${events.length} events are too much`, 'split the scenario');
  return true;
}

function applyOne(map: MapNode, draft: Draft, frame: Frame, scope: Scope): Draft {
  const vocabulary = { thing: 'change', word: 'kind', words: WORDS, companions: COMPANIONS };
  const picked = pickWord(map, vocabulary, scope.problems);
  const change = picked === null ? undefined : CHANGES.get(picked.key);
  if (picked === null || change === undefined) return draft;
  const about = { what: withArticle(`"${change.word}" change`), span: picked.keySpan };
  const read = readFields(change.definition, map, about, scope);
  // A day that could not be read in full would only make the change say what is not so.
  return read === null || scope.problems.size > 0 ? draft : change.apply(read as never, draft, scope.problems, frame);
}
