// The keys of a scenario file, and the frame of its day.
import { z } from 'zod';
import { REGIME_IDS } from '../exposure/regimes.js';
import { choice } from './fields/choice.js';
import { type ClockTime, clock, DAY_MS, MAX_SPAN_MS, sinceStart } from './fields/clock.js';
import { type Found, nodeField } from './fields/field.js';
import { integer } from './fields/number.js';
import { namesOf, sentence } from './fields/text.js';
import type { Problems } from './problems.js';
import type { Frame } from './scope.js';

const MAX_SEED = 4_294_967_295;
/** Where a file gives none. */
export const DEFAULT_SEED = 1;

export const TOP = z.strictObject({
  title: sentence('what the scenario shows', 'one line'),
  covers: namesOf('requirement', 'a requirement such as TAL-3, or a list of them').optional(),
  seed: integer(0, MAX_SEED, 'the seed').optional(),
  regime: choice(REGIME_IDS),
  from: clock,
  until: clock,
  tools: nodeField({ type: 'object', description: 'a map of tools, {breaker: {hand: percussive, magnitude: 12.0}}' }),
  workers: nodeField({ type: 'object', description: 'a map of workers, {Edda: {}}' }),
  day: nodeField({ type: 'array', description: 'a list of steps, - {at: 07:00, pair: breaker, with: Edda}' }),
  expect: nodeField({
    type: 'array',
    description: 'a list of expectations, - {at: end, points: Edda, is: 19.2}',
  }).optional(),
  rows: nodeField({ type: 'array', description: 'a list of rows of parameters, - {away: 5m}' }).optional(),
  'what-if': nodeField({
    type: 'object',
    description: 'a map of changes, {a lighter breaker: [{magnitude: breaker, to: 8.0}]}',
  }).optional(),
  notes: nodeField({
    type: 'array',
    description: 'a list of notes, - {at: 07:30, say: Now the breaker runs.}',
  }).optional(),
});

/** Keys whose values are the same in every row. */
export const SAME_IN_ALL_ROWS: readonly string[] = ['title', 'covers', 'rows'];

/**
 * The frame of a day. An end that is not later than the start is on the next day. null where it cannot be told, which is
 * reported.
 */
export function readFrame(
  from: Found<ClockTime> | undefined,
  until: Found<ClockTime> | undefined,
  problems: Problems,
): Frame | null {
  if (from === undefined || until === undefined) return null;
  if (from.value.day !== null) {
    problems.at(from.node, 'value', 'a day begins on day 1', 'a time without "day" before it');
    return null;
  }
  const fromMs = from.value.ms;
  const lengthMs = sinceStart(until.value, fromMs);
  const untilMs = lengthMs === 0 && until.value.day === null ? DAY_MS : lengthMs;
  if (untilMs > 0 && untilMs <= MAX_SPAN_MS) return { fromMs, untilMs };
  problems.at(until.node, 'value', 'the day cannot end here', 'an end after "from", at most seven days later');
  return null;
}
