// Lists and maps of a scenario file, bounded; whatever is something else is reported and read as empty.
import type { Problems } from './problems.js';
import { type MapNode, type Node, nodeWord } from './yaml/node.js';

/** The items of a list of at most `most`, each reported where it is no map; `what` is for a sentence: "a step". */
export function mapsOf(node: Node | undefined, what: string, most: number, problems: Problems): readonly MapNode[] {
  return itemsOf(node, what, most, problems).flatMap((item) => {
    if (item.kind === 'map') return [item];
    problems.at(item, 'value', `here stands ${nodeWord(item)}`, `expected ${what} as a map: {…}`);
    return [];
  });
}

/** The items of a list of at most `most`. */
function itemsOf(node: Node | undefined, what: string, most: number, problems: Problems): readonly Node[] {
  if (node === undefined) return [];
  if (node.kind !== 'list') {
    problems.at(node, 'value', `here stands ${nodeWord(node)}`, `expected a list, each item ${what}`);
    return [];
  }
  const beyond = node.items[most];
  if (beyond !== undefined) problems.at(beyond, 'limit', `more than ${most} items`, 'split the scenario');
  return node.items.slice(0, most);
}

/** The entries of a map of at most `most`. */
export function entriesOf(node: Node, what: string, most: number, problems: Problems): MapNode['entries'] {
  if (node.kind !== 'map') {
    problems.at(node, 'value', `here stands ${nodeWord(node)}`, `expected a map: {name: ${what}}`);
    return [];
  }
  const beyond = node.entries[most];
  if (beyond !== undefined) problems.on(beyond.keySpan, 'limit', `more than ${most} entries`, 'split the scenario');
  return node.entries.slice(0, most);
}
