// An expectation of a scenario file as a tree of the texts that stand in it, so that one of them can be replaced and the whole be
// written again, on one line.
import { isMap, isScalar, isSeq, type Node, parseDocument } from 'yaml';

export type Tree = string | readonly Tree[] | TreeMap;
export interface TreeMap {
  readonly entries: readonly (readonly [key: string, value: Tree])[];
}

/** Keys and indices from the root down. */
export type Path = readonly (string | number)[];

export function isTreeMap(tree: Tree): tree is TreeMap {
  return typeof tree === 'object' && 'entries' in tree && !Array.isArray(tree);
}

export function treeOf(node: Node): Tree {
  if (isScalar(node)) return node.source ?? '';
  if (isSeq(node)) return node.items.map((item) => treeOf(item as Node));
  if (!isMap(node)) throw new Error('an expectation is made of maps, lists and scalars');
  return {
    entries: node.items.map(
      ({ key, value }) => [isScalar(key) ? String(key.value) : '', treeOf(value as Node)] as const,
    ),
  };
}

/** The list behind a key of a scenario, as trees. */
export function listOf(text: string, key: string): readonly Tree[] {
  const list = parseDocument(text).get(key);
  return isSeq(list) ? list.items.map((item) => treeOf(item as Node)) : [];
}

export function entryOf(map: Tree, key: string): Tree | undefined {
  return isTreeMap(map) ? map.entries.find(([name]) => name === key)?.[1] : undefined;
}

/** The tree with another text at the end of the path. */
export function withText(tree: Tree, [step, ...rest]: Path, text: string): Tree {
  if (step === undefined) return text;
  if (isTreeMap(tree)) {
    return { entries: tree.entries.map(([key, value]) => [key, key === step ? withText(value, rest, text) : value]) };
  }
  if (typeof tree === 'string') throw new Error('the path leads beyond a text');
  return (tree as readonly Tree[]).map((item, index) => (index === step ? withText(item, rest, text) : item));
}

/** The tree with another key at the end of the path. */
export function withKey(tree: Tree, [step, ...rest]: Path, name: string): Tree {
  if (!isTreeMap(tree)) throw new Error('the path leads through no map');
  return {
    entries: tree.entries.map(([key, value]) => {
      if (key !== step) return [key, value];
      return rest.length === 0 ? [name, value] : [key, withKey(value, rest, name)];
    }),
  };
}

export function without(tree: Tree, name: string): Tree {
  return isTreeMap(tree) ? { entries: tree.entries.filter(([key]) => key !== name) } : tree;
}

/** On one line, as YAML. */
export function flow(tree: Tree): string {
  if (typeof tree === 'string') return tree;
  if (isTreeMap(tree)) return `{${tree.entries.map(([key, value]) => `${key}: ${flow(value)}`).join(', ')}}`;
  return `[${(tree as readonly Tree[]).map(flow).join(', ')}]`;
}
