// A verb whose step may stand for a rate: the fault comes again each `every`, so many `times` or `until` a time. Such a step
// becomes one plain event a time.
import type { z } from 'zod';
import type { DayEvent } from '../day.js';
import { type ClockTime, clockOrEnd, sinceStart } from '../fields/clock.js';
import { duration } from '../fields/duration.js';
import type { Found } from '../fields/field.js';
import { integer } from '../fields/number.js';
import { reportOutside } from '../scope.js';
import { MAX_TIMES, reportOverlap, timesOf } from './series.js';
import { type Step, type Surroundings, type Verb, verb, type Written } from './verb.js';

const RATE_FIELDS = {
  every: duration().optional(),
  until: clockOrEnd.optional(),
  times: integer(1, MAX_TIMES, 'how many times').optional(),
};

interface Rate {
  readonly every?: Found<number> | undefined;
  readonly until?: Found<ClockTime | 'end'> | undefined;
  readonly times?: Found<number> | undefined;
}

type EventOf<W extends string> = Extract<DayEvent, { readonly do: W }>;
type Timeless<E> = E extends unknown ? Omit<E, 'atMs'> : never;

/** Ties the types of a fault's parts together. */
export function fault<W extends string, S extends z.ZodRawShape>(
  word: W,
  fields: S,
  parts: {
    /** What the step orders each time, `time` being 0 for the first; reports what cannot be. */
    readonly event: (step: Step<S & typeof RATE_FIELDS>, around: Surroundings, time: number) => Timeless<EventOf<W>>;
    readonly write: (event: EventOf<W>) => Written;
  },
): Verb {
  return verb(
    word,
    { ...fields, ...RATE_FIELDS },
    {
      events: (step, atMs, around) => {
        const first = parts.event(step as never, around, 0);
        const forMs = 'forMs' in first ? first.forMs : 0;
        return momentsOf(step as Rate, atMs, forMs, around).map(
          (ms, time) => ({ ...(time === 0 ? first : parts.event(step as never, around, time)), atMs: ms }) as never,
        );
      },
      write: parts.write,
    },
  );
}

/** When the fault comes, in ms since the start; forMs is how long each lasts, null where nothing ends it. */
function momentsOf(rate: Rate, atMs: number, forMs: number | null, around: Surroundings): readonly number[] {
  const { every, until, times } = rate;
  const { problems } = around;
  if (every === undefined) {
    const stray = until ?? times;
    const expected = 'from the beginning of one to the beginning of the next, such as every: 40m';
    if (stray !== undefined) problems.at(stray.node, 'missing', 'this goes with "every"', expected);
    return [atMs];
  }
  if (until === undefined && times === undefined) {
    problems.at(every.node, 'missing', '"every" does not say how often', 'times: 6 or until: 15:00 beside it');
    return [];
  }
  if (forMs === null) {
    problems.at(every.node, 'missing', 'what comes again needs "for"', 'how long it lasts each time, such as for: 5m');
  } else reportOverlap(every, forMs, 'for', around);
  if (until === undefined && times !== undefined) {
    return timesOf({ atMs, every, times: times.value }, 'the last time', times, around);
  }
  if (until !== undefined && times === undefined) return momentsUntil(until, every, atMs, around);
  if (times !== undefined) {
    problems.at(times.node, 'unexpected', '"until" and "times" exclude each other', 'one of them');
  }
  return [];
}

function momentsUntil(
  until: Found<ClockTime | 'end'>,
  every: Found<number>,
  atMs: number,
  around: Surroundings,
): readonly number[] {
  const { problems, frame } = around;
  const untilMs = until.value === 'end' ? frame.untilMs : sinceStart(until.value, frame.fromMs);
  if (untilMs > frame.untilMs) reportOutside(problems, until.node, frame);
  else if (untilMs <= atMs)
    problems.at(until.node, 'value', 'this ends before it begins', 'a time after "at", with its day');
  else {
    const times = Math.ceil((untilMs - atMs) / every.value);
    if (times <= MAX_TIMES) return timesOf({ atMs, every, times }, 'the last time', until, around);
    problems.at(every.node, 'limit', `this comes more than ${MAX_TIMES} times`, 'a longer time, or an earlier end');
  }
  return [];
}
