import { describe, expect, it } from 'vitest';
import { coursesOf, doseAt } from '../../../src/show/replay/course.js';
import { Cursor } from '../../../src/trace/cursor.js';
import { HOUR, longDay, MadeDay, MINUTE } from '../../trace/made-day.js';

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

  it('falls to what a wearable found when its power was back', () => {
    const day = new MadeDay({ saw: 60 }, ['Edda']).pair(0, 'saw', 'Edda').work(0, 'saw', 'Edda', 10_000);
    day.step(MINUTE, (recorder, at) => recorder.add(at, 'Edda', 'inner.resumed', 0, { dose: 7, open: true, shift: 1 }));
    const [course] = coursesOf(day.events());
    // 6 m/s² for 10 s: 60² · 10 000 u.
    expect([doseAt(course!, MINUTE - 1), doseAt(course!, MINUTE)]).toEqual([36_000_000, 7]);
  });
});
