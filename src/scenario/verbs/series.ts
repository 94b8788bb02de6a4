// Something that happens again and again, written in one line: its times, and that it ends within the day.
import type { Found } from '../fields/field.js';
import { reportOutside } from '../scope.js';
import type { Surroundings } from './verb.js';

/** Times of one step. */
export const MAX_TIMES = 10_000;

export interface Series {
  readonly atMs: number;
  readonly every: Found<number>;
  readonly times: number;
}

/** ms since the start, the first at atMs; reports at `blame` where the last, called `what`, lies outside the day. */
export function timesOf(
  { atMs, every, times }: Series,
  what: string,
  blame: Found<unknown>,
  { problems, frame }: Surroundings,
): readonly number[] {
  const everyMs = every.value;
  if (atMs + (times - 1) * everyMs >= frame.untilMs) reportOutside(problems, blame.node, frame, what);
  return Array.from({ length: times }, (_, time) => atMs + time * everyMs);
}

/** Reports a period shorter than what begins anew in each; `length` is the key that says how long that is. */
export function reportOverlap(every: Found<number>, forMs: number, length: string, { problems }: Surroundings): void {
  if (every.value >= forMs) return;
  const expected = `from the beginning of one to the beginning of the next: at least as long as "${length}"`;
  problems.at(every.node, 'value', `"every" is shorter than "${length}"`, expected);
}
