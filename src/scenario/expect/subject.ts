// What an expectation is about: a quantity, a condition or a happening. Each has a word, a name or a word that it is of,
// and fields of its own. `points: Edda` and `never: points, of: Edda` speak of the same.
import type { z } from 'zod';
import type { Condition, Happening, Quantity } from '../expectation.js';
import type { Field, Found } from '../fields/field.js';
import type { Timeline } from '../moment.js';
import type { Scope } from '../scope.js';
import type { Source } from '../source.js';
import type { Words } from '../words.js';
import type { Unit } from './comparison.js';

export type Matter =
  | { readonly quantity: Quantity; readonly unit: Unit }
  | { readonly condition: Condition }
  | { readonly happening: Happening };

/** What the reader of an expectation looks at beside its map. */
export interface Around {
  readonly scope: Scope;
  readonly words: Words;
  readonly timeline: Timeline;
  readonly source: Source;
}

export interface Subject {
  readonly word: string;
  /** What stands behind the word, or behind "of". */
  readonly of: z.ZodType;
  readonly fields: z.ZodRawShape;
  /** "maybe" where it is a quantity only in the company of a comparison. */
  readonly compares: 'yes' | 'no' | 'maybe';
  /** null where something is missing or unknown, which is reported. */
  readonly read: (of: never, fields: never, around: Around) => Matter | null;
}

/** Ties the types of a subject's parts together. */
export function subject<T, S extends z.ZodRawShape>(
  word: string,
  of: Field<T>,
  fields: S,
  compares: Subject['compares'],
  read: (of: Found<T>, fields: z.output<z.ZodObject<S>>, around: Around) => Matter | null,
): Subject {
  return { word, of, fields, compares, read };
}
