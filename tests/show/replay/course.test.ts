import { describe, expect, it } from 'vitest';
import { coursesOf, doseAt } from '../../../src/show/replay/course.js';
import { Cursor } from '../../../src/trace/cursor.js';
import { HOUR, longDay, MINUTE } from '../../trace/made-day.js';

describe('coursesOf', () => {
  it('agrees with the moment at any time', () => {
    const events = longDay().events();
    const cursor = new Cursor(events);
    const courses = coursesOf(events);
    for (let atMs = 0; atMs <= 8 * HOUR; atMs += 7 * MINUTE + 1) {
      const doses = cursor.at(atMs).workers.map(({ dose }) => dose);
      expect(courses.map((course) => doseAt(course, atMs))).toEqual(doses);
    }
  });
});
