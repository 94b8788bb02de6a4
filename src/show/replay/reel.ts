// A day made ready to be shown: everything that is worked out once, before the first frame.
import type { Note } from '../../scenario/scenario.js';
import { Cursor } from '../../trace/cursor.js';
import type { ShownDay } from '../shown-day.js';
import type { TimelineLine } from '../timeline/line.js';
import { troubleLines } from '../timeline/troubles.js';
import { type Course, coursesOf } from './course.js';
import { marksFor } from './marks.js';

export interface Reel {
  readonly title: string;
  /** In order of time. */
  readonly notes: readonly Note[];
  readonly cursor: Cursor;
  /** One a worker, in the order of the workers. */
  readonly courses: readonly Course[];
  /** One letter a worker, in the same order. */
  readonly marks: readonly string[];
  /** What goes wrong, and is right again, in order of time. */
  readonly troubles: readonly TimelineLine[];
  /** Length of the day in ms. */
  readonly untilMs: number;
}

/** Throws where the events are no whole trace from its first event on. */
export function reelOf({ title, events, notes }: ShownDay): Reel {
  const cursor = new Cursor(events);
  const [first] = events;
  if (first?.kind !== 'hand.day') throw new Error('a trace begins with hand.day');
  const courses = coursesOf(events);
  return {
    title,
    notes: [...notes].sort((a, b) => a.atMs - b.atMs),
    cursor,
    courses,
    marks: marksFor(courses.map(({ worker }) => worker)),
    troubles: troubleLines(events),
    untilMs: first.untilMs,
  };
}
