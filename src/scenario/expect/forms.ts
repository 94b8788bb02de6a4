// The forms of an expectation: at, always, never, within … after, rises by.
import { choice } from '../fields/choice.js';
import { duration } from '../fields/duration.js';
import { field, nodeField } from '../fields/field.js';
import { type Moment, moment, readMoment } from '../moment.js';
import type { MapNode } from '../yaml/node.js';
import { SUBJECTS } from './subjects.js';

export const FORMS = ['at', 'always', 'never', 'within', 'rises by'] as const;
export type Form = (typeof FORMS)[number];

const span = { from: moment.optional(), until: moment.optional() };
const spoken = choice([...SUBJECTS.keys()]);

const anchor = field<Moment | MapNode>(
  { description: 'a moment, or a happening such as {return: Edda}', anyOf: [{ type: 'string' }, { type: 'object' }] },
  (node, reading) => (node.kind === 'map' ? node : readMoment(node, reading)),
);

const rise = nodeField({
  description: 'a number, a range [low, high], or a comparison such as {at least: 20}',
  anyOf: [{ type: 'number' }, { type: 'string' }, { type: 'array' }, { type: 'object' }],
});

/** The fields that make each form; what it is about comes beside them. */
export const FORM_FIELDS = {
  at: { at: moment },
  always: { always: spoken, ...span },
  never: { never: spoken, ...span },
  within: { within: duration(), after: anchor },
  'rises by': { 'rises by': rise, ...span },
} as const;

/** In these the subject is the value of the form's word, and whose it is stands behind "of". */
export function namesSubject(form: Form): form is 'always' | 'never' {
  return form === 'always' || form === 'never';
}
