// What a `within` is counted from: a moment of the day, or every occurrence of a happening.
import type { Expectation } from '../expectation.js';
import type { Found } from '../fields/field.js';
import { type Moment, msOf } from '../moment.js';
import type { MapNode } from '../yaml/node.js';
import { readMatter } from './read-matter.js';
import type { Around } from './subject.js';

type Anchor = Extract<Expectation, { readonly form: 'within' }>['after'];

/** null where there was a problem, which is reported. */
export function anchorOf(found: Found<Moment | MapNode>, withinMs: number, around: Around): Anchor | null {
  const { value, node } = found;
  if (typeof value === 'object' && 'entries' in value) return happeningOf(value, around);
  const { problems } = around.scope;
  const atMs = msOf({ value, node }, around.timeline, problems);
  if (atMs === null) return null;
  if (atMs + withinMs <= around.timeline.frame.untilMs) return { atMs };
  problems.at(node, 'value', 'the day ends before the time is up', 'a later end of the day, or a shorter time');
  return null;
}

function happeningOf(map: MapNode, around: Around): Anchor | null {
  const read = readMatter(map, { what: 'an "after"', fields: {}, subjectKey: null, compares: false }, around);
  if (read === null) return null;
  if ('happening' in read.matter) return { happening: read.matter.happening };
  const expected = 'a happening such as {return: Edda}';
  around.scope.problems.at(map, 'unexpected', 'this does not happen, it holds', expected);
  return null;
}
