// The catalogue of requirements of the devices, from the text of scenarios/catalogue/requirements.yaml: the one source of their
// identifiers and words.
import { z } from 'zod';
import { entriesOf, mapsOf } from './collections.js';
import { type Found, nodeField } from './fields/field.js';
import { readFields } from './fields/read-fields.js';
import { sentence } from './fields/text.js';
import type { Problem } from './problem.js';
import { Problems } from './problems.js';
import { Scope } from './scope.js';
import { Source } from './source.js';
import { type Entry, type MapNode, type Node, nodeWord, quoted } from './yaml/node.js';
import { parseTree } from './yaml/parse.js';

export interface Requirement {
  /** MAG-1 … WEA-5 */
  readonly id: string;
  readonly text: string;
}

export interface RequirementGroup {
  readonly title: string;
  /** What holds for the whole group, or null. */
  readonly about: string | null;
  readonly requirements: readonly Requirement[];
}

export type Catalogue =
  | { readonly ok: true; readonly groups: readonly RequirementGroup[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

const MAX_GROUPS = 50;
const MAX_IN_GROUP = 100;
const ID = /^[A-Z]{3}-[1-9]\d?$/;

const CATALOGUE = z.strictObject({
  about: sentence('what holds for all requirements').optional(),
  groups: nodeField({ type: 'array', description: 'a list of groups' }),
});

const GROUP = z.strictObject({
  title: sentence('the title of the group', 'one line'),
  about: sentence('what holds for the whole group').optional(),
  requirements: nodeField({
    type: 'object',
    description: 'a map of identifiers and their texts, {TAL-1: At most 27 bytes.}',
  }),
});

const TEXT = sentence('the text of the requirement');

/** Reads the text of the catalogue; all problems at once, as with a scenario. */
export function readRequirements(text: string, file: string): Catalogue {
  const problems = new Problems(new Source(file, text));
  const root = parseTree(text, problems);
  const groups = root === null ? [] : readGroups(root, problems);
  return problems.size > 0 ? { ok: false, problems: problems.list() } : { ok: true, groups };
}

function readGroups(root: Node, problems: Problems): readonly RequirementGroup[] {
  const scope = new Scope(problems, {});
  if (root.kind !== 'map') {
    problems.at(root, 'value', `here stands ${nodeWord(root)}`, 'expected a map with the keys about and groups');
    return [];
  }
  const read = readFields(CATALOGUE, root, { what: 'a catalogue', span: { start: 0, end: 1 } }, scope);
  const seen = new Set<string>();
  return mapsOf(read?.groups.value, 'a group', MAX_GROUPS, problems).flatMap((map) => {
    const group = readGroup(map, seen, scope);
    return group === null ? [] : [group];
  });
}

function readGroup(map: MapNode, seen: Set<string>, scope: Scope): RequirementGroup | null {
  const read = readFields(GROUP, map, { what: 'a group', span: map.span }, scope);
  if (read === null) return null;
  const entries = entriesOf(read.requirements.value, 'a requirement', MAX_IN_GROUP, scope.problems);
  const requirements = entries.map((entry) => readRequirement(entry, seen, scope.problems));
  return { title: read.title.value, about: read.about?.value ?? null, requirements };
}

function readRequirement({ key, keySpan, value }: Entry, seen: Set<string>, problems: Problems): Requirement {
  if (!ID.test(key)) problems.on(keySpan, 'value', `${quoted(key)} is no identifier`, 'expected one such as TAL-3');
  if (seen.has(key)) problems.on(keySpan, 'unexpected', `${key} stands here twice`, 'each requirement once');
  seen.add(key);
  const text = TEXT.safeParse(value);
  if (!text.success) problems.at(value, 'value', 'this is no text', 'expected the text of the requirement');
  return { id: key, text: (text.data as Found<string> | undefined)?.value.replace(/\s+/g, ' ') ?? '' };
}
