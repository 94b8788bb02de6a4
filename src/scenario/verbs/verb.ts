// What a verb of the language is: a strict definition of its step, the plain events that a step becomes, and how an
// event is written as a step.
import { z } from 'zod';
import type { DayEvent } from '../day.js';
import { clock } from '../fields/clock.js';
import { label } from '../fields/text.js';
import type { Problems } from '../problems.js';
import type { Frame } from '../scope.js';

/** What every step has beside its verb. */
const STEP_FIELDS = { at: clock, as: label.optional() };

/** The fields of a step in order, each value as YAML text already. */
export type Written = readonly (readonly [key: string, value: string])[];

/** What a verb's reader looks at beside its step. */
export interface Surroundings {
  readonly problems: Problems;
  readonly frame: Frame;
}

export interface Verb {
  /** The verb, and the key of the step that names it. */
  readonly word: string;
  readonly definition: z.ZodObject;
  /** The events of one step, in the order of their times; reports what cannot be. */
  readonly events: (step: never, atMs: number, around: Surroundings) => readonly DayEvent[];
  /** What stands behind `at` when such an event is written; null for a verb that is a short form of others. */
  readonly write: ((event: never) => Written) | null;
}

/** What is read of a step that has these fields beside those of every step. */
export type Step<S extends z.ZodRawShape> = z.output<z.ZodObject<S & typeof STEP_FIELDS, z.core.$strict>>;

/** Ties the types of a verb's parts together. */
export function verb<W extends string, S extends z.ZodRawShape>(
  word: W,
  fields: S,
  parts: {
    readonly events: (step: Step<S>, atMs: number, around: Surroundings) => readonly DayEvent[];
    readonly write: ((event: Extract<DayEvent, { readonly do: W }>) => Written) | null;
  },
): Verb {
  return { word, definition: z.strictObject({ ...STEP_FIELDS, ...fields }), ...parts };
}
