// What a change of a what-if is: a strict definition, and what it does to the day.
import { z } from 'zod';
import type { ToolSpec } from '../day.js';
import type { Problems } from '../problems.js';
import type { Frame } from '../scope.js';
import type { LabelledEvent } from '../steps.js';

/** The parts of a day that a what-if may change. */
export interface Draft {
  readonly tools: readonly ToolSpec[];
  readonly events: readonly LabelledEvent[];
}

export interface Change {
  /** The key of the change that names it. */
  readonly word: string;
  readonly definition: z.ZodObject;
  /** The day with the change; reports what has no meaning. */
  readonly apply: (change: never, draft: Draft, problems: Problems, frame: Frame) => Draft;
}

/** Ties the types of a change's parts together. */
export function change<S extends z.ZodRawShape>(
  word: string,
  fields: S,
  apply: (change: z.output<z.ZodObject<S, z.core.$strict>>, draft: Draft, problems: Problems, frame: Frame) => Draft,
): Change {
  return { word, definition: z.strictObject(fields), apply };
}

/** The draft with every event of that label replaced. */
export function mapLabel(
  draft: Draft,
  label: string,
  replace: (event: LabelledEvent['event']) => LabelledEvent['event'],
): Draft {
  const events = draft.events.map((each) => (each.label === label ? { ...each, event: replace(each.event) } : each));
  return { ...draft, events };
}
