// Moves of one leaf of an expectation: a number or a time is made another one, a name or a word is swapped for every other of its
// sort. Only what the reader takes is made.
import { WORDS } from '../shipped.js';
import { durationsAbout, numbersAbout } from './amounts.js';
import type { Leaf } from './leaves.js';
import { momentsAbout } from './moments.js';
import type { ScenarioStage } from './stage.js';
import { entryOf, flow, type Tree, withKey, without, withText } from './tree.js';

/** The expectation with the leaf moved, once for each move. */
export function movesOf(expectation: Tree, leaf: Leaf, stage: ScenarioStage): readonly Tree[] {
  const moved = textsFor(expectation, leaf, stage).map((text) => withText(expectation, leaf.path, text));
  const all = leaf.sort === 'comparison' || leaf.sort === 'form' ? rekeyed(expectation, leaf) : moved;
  const coupled = leaf.path.at(-1) === 'region' ? all.flatMap((tree) => withStates(tree, leaf, stage)) : all;
  // Under no what-if the expectation is of the day as written.
  const unconditional = leaf.path[0] === 'what-if' ? [without(expectation, 'what-if')] : [];
  const different = new Map([...coupled, ...unconditional].map((tree) => [flow(tree), tree]));
  different.delete(flow(expectation));
  return [...different.values()];
}

function textsFor(expectation: Tree, leaf: Leaf, stage: ScenarioStage): readonly string[] {
  const written = leaf.text.startsWith('$') ? (stage.parameters.get(leaf.text.slice(1)) ?? []) : [leaf.text];
  switch (leaf.sort) {
    case 'number':
      return written.flatMap((text) => numbersAbout(text, expectation, leaf));
    case 'duration':
      return written.flatMap((text) => durationsAbout(text, expectation, leaf));
    case 'moment':
      return written.flatMap((text) => momentsAbout(text, expectation, leaf, stage));
    default:
      return leaf.others;
  }
}

function rekeyed(expectation: Tree, { path, text, others }: Leaf): readonly Tree[] {
  return others.filter((word) => word !== text).map((word) => withKey(expectation, path, word));
}

/** Another region has other states, so both are swapped together. */
function withStates(tree: Tree, { path }: Leaf, { tools }: ScenarioStage): readonly Tree[] {
  const device = String(entryOf(tree, 'state') ?? entryOf(tree, 'of'));
  const { regions } = tools.includes(device) ? WORDS.counter : WORDS.wearable;
  const states = regions[String(entryOf(tree, 'region'))] ?? [];
  return states.map((state) => withText(tree, [...path.slice(0, -1), 'is'], state));
}
