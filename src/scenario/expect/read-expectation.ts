// One expectation of a scenario file, in any of its forms, as data for the judge.
import type { Expectation } from '../expectation.js';
import type { Found } from '../fields/field.js';
import { nameUsed } from '../fields/text.js';
import { type Moment, msOf } from '../moment.js';
import { pickWord } from '../pick-word.js';
import { flowNode } from '../yaml/flow.js';
import { type MapNode, type Node, withArticle } from '../yaml/node.js';
import { anchorOf } from './anchor.js';
import { COMPARISONS } from './comparison.js';
import { FORM_FIELDS, FORMS, type Form, namesSubject } from './forms.js';
import { claimOf, claimOrHappening, type Read, readMatter } from './read-matter.js';
import { riseOf } from './rise.js';
import type { Around } from './subject.js';
import { SUBJECT_KEYS } from './subjects.js';

/** In every form: the what-if under which it is expected, where it is not of the day as written. */
const EVERY_FORM = { 'what-if': nameUsed('what-if', 'the name of a what-if').optional() };

/** Keys that no form was meant by. */
const COMPANIONS = [...SUBJECT_KEYS, ...COMPARISONS, 'of', 'from', 'until', 'after', 'what-if'];

type Body = Expectation extends infer E ? (E extends unknown ? Omit<E, 'place' | 'text'> : never) : never;

/** null where there was a problem, which is reported. */
export function readExpectation(map: MapNode, around: Around): Expectation | null {
  const { scope, source } = around;
  const vocabulary = { thing: 'expectation', word: 'form', words: FORMS, companions: COMPANIONS };
  const picked = pickWord(map, vocabulary, scope.problems);
  if (picked === null) return null;
  const form = picked.key as Form;
  const subjectKey = namesSubject(form) ? form : null;
  const fields = { ...FORM_FIELDS[form], ...EVERY_FORM };
  const what = withArticle(`"${form}" expectation`);
  const read = readMatter(map, { what, fields, subjectKey, compares: form !== 'rises by' }, around);
  const body = read === null ? null : BODIES[form](read, map, around);
  return body === null ? null : { place: source.place(map.span.start), text: flowNode(map), ...body };
}

const BODIES: Readonly<Record<Form, (read: Read, map: MapNode, around: Around) => Body | null>> = {
  at: (read, map, around) => {
    const at = read.values.at as Found<Moment>;
    const atMs = msOf(at, around.timeline, around.scope.problems);
    const claim = claimOf(read, map, around);
    return atMs === null || claim === null ? null : { form: 'at', atMs, claim };
  },
  always: (read, map, around) => {
    const span = spanOf(read, map, around);
    const claim = claimOf(read, map, around);
    return span === null || claim === null ? null : { form: 'always', ...span, claim };
  },
  never: (read, map, around) => {
    const span = spanOf(read, map, around);
    const claim = claimOrHappening(read, map, around);
    return span === null || claim === null ? null : { form: 'never', ...span, claim };
  },
  within: (read, map, around) => {
    const withinMs = (read.values.within as Found<number>).value;
    const after = anchorOf(read.values.after as Found<Moment | MapNode>, withinMs, around);
    const claim = claimOrHappening(read, map, around);
    return after === null || claim === null ? null : { form: 'within', withinMs, after, claim };
  },
  'rises by': ({ matter, ...read }, map, around) => {
    const span = spanOf(read, map, around);
    const { problems } = around.scope;
    if (!('quantity' in matter)) {
      problems.at(map, 'unexpected', 'only a quantity rises', 'points, dose, trigger time and the like');
      return null;
    }
    const compare = riseOf((read.values['rises by'] as Found<Node>).value, matter.unit, problems);
    return span === null || compare === null ? null : { form: 'rises by', ...span, quantity: matter.quantity, compare };
  },
};

interface Interval {
  readonly fromMs: number;
  readonly untilMs: number;
}

/** From `from` until `until`; the whole day where they are not written. */
function spanOf({ values }: Pick<Read, 'values'>, map: MapNode, { timeline, scope }: Around): Interval | null {
  const { from, until } = values as { readonly from?: Found<Moment>; readonly until?: Found<Moment> };
  const fromMs = from === undefined ? 0 : msOf(from, timeline, scope.problems);
  const untilMs = until === undefined ? timeline.frame.untilMs : msOf(until, timeline, scope.problems);
  if (fromMs === null || untilMs === null) return null;
  if (fromMs < untilMs) return { fromMs, untilMs };
  scope.problems.at(map, 'value', 'this ends before it begins', '"from" lies before "until"');
  return null;
}
