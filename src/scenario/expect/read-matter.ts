// Reads what an expectation is about, together with whatever else stands in its map: one strict definition made of the
// form's fields, the subject's own, and the comparison's where there is one.
import { z } from 'zod';
import type { Claim, Happening } from '../expectation.js';
import type { Found } from '../fields/field.js';
import { readFields } from '../fields/read-fields.js';
import { pickWord } from '../pick-word.js';
import { entryOf, type MapNode } from '../yaml/node.js';
import { COMPARISON_FIELDS, pickComparison } from './comparison.js';
import type { Around, Matter, Subject } from './subject.js';
import { SUBJECT_KEYS, SUBJECTS } from './subjects.js';

export type Values = Readonly<Record<string, Found<unknown> | undefined>>;

export interface Read {
  readonly values: Values;
  readonly matter: Matter;
}

export interface FormFields {
  /** For sentences: `an "at" expectation`. */
  readonly what: string;
  readonly fields: z.ZodRawShape;
  /** The key whose value names the subject, as in `never: alert, of: action`; null where the subject is a key itself. */
  readonly subjectKey: string | null;
  /** Whether a quantity is compared with something beside it. */
  readonly compares: boolean;
}

const WORDS = [...SUBJECTS.keys()];
const definitions = new Map<string, z.ZodObject>();

/** What a map speaks of, and the values of all its fields; null where there was a problem. */
export function readMatter(map: MapNode, form: FormFields, around: Around): Read | null {
  const subject = subjectOf(map, form, around);
  if (subject === null) return null;
  const ofKey = form.subjectKey === null ? subject.word : 'of';
  const about = { what: `${form.what} of "${subject.word}"`, span: map.span };
  const values = readFields(definitionOf(form, subject, ofKey), map, about, around.scope) as Values | null;
  if (values === null) return null;
  const matter = subject.read(values[ofKey] as never, values as never, around);
  return matter === null ? null : { values, matter };
}

/** The claim of a quantity or a condition; null where there was a problem, which is reported: a happening is none. */
export function claimOf({ values, matter }: Read, map: MapNode, { scope }: Around): Claim | null {
  if ('happening' in matter) {
    const expected = 'a happening goes with "never" and with "within … after"';
    scope.problems.at(map, 'unexpected', 'what happens in a moment does not hold', expected);
    return null;
  }
  if ('quantity' in matter) {
    const compare = pickComparison(values, matter.unit, map, scope.problems);
    return compare === null ? null : { quantity: matter.quantity, compare };
  }
  const comparison = Object.keys(COMPARISON_FIELDS).find((word) => matter.condition.of !== 'state' && values[word]);
  const node = comparison === undefined ? undefined : values[comparison]?.node;
  if (node === undefined) return { condition: matter.condition };
  scope.problems.at(node, 'unexpected', `"${comparison}" compares a number`, 'a screen or an icon has none');
  return null;
}

/** The claim or the happening. */
export function claimOrHappening(
  read: Read,
  map: MapNode,
  around: Around,
): Claim | { readonly happening: Happening } | null {
  return 'happening' in read.matter ? { happening: read.matter.happening } : claimOf(read, map, around);
}

function subjectOf(map: MapNode, { subjectKey, fields }: FormFields, { scope }: Around): Subject | null {
  if (subjectKey !== null) {
    const node = entryOf(map, subjectKey)?.value;
    const subject = node?.kind === 'scalar' ? SUBJECTS.get(node.text) : undefined;
    if (subject === undefined && node !== undefined) {
      const text = node.kind === 'scalar' ? node.text : '';
      scope.word(node, 'subject', text, new Set(WORDS));
    }
    return subject ?? null;
  }
  const companions = [...Object.keys(fields), ...Object.keys(COMPARISON_FIELDS), ...SUBJECT_KEYS];
  const picked = pickWord(map, { thing: 'expectation', word: 'subject', words: WORDS, companions }, scope.problems);
  return picked === null ? null : (SUBJECTS.get(picked.key) ?? null);
}

function definitionOf(form: FormFields, subject: Subject, ofKey: string): z.ZodObject {
  const name = `${form.what} ${subject.word}`;
  const known = definitions.get(name);
  if (known !== undefined) return known;
  const comparison = form.compares && subject.compares !== 'no' ? COMPARISON_FIELDS : {};
  const made = z.strictObject({ ...form.fields, [ofKey]: subject.of, ...subject.fields, ...comparison });
  definitions.set(name, made);
  return made;
}
