import { describe, expect, it } from 'vitest';
import { staleInTime } from '../../../src/judge/invariants/stale-in-time.js';
import { DayTrace } from '../day.js';
import { told } from './told.js';

const RUNNING = 1;
const SEALED = 2;

class Air extends DayTrace {
  hear(at: number, sequence: number, flags: number, session = 1) {
    this.heard(at, this.tally(at, 10, { flags, sequence, session }));
  }

  mark(at: number, on: boolean) {
    this.add(at, 'Edda', 'shown.mark', { counter: 'breaker', mark: 'stale', on });
  }
}

/** Edda hears a tally at 0 ms; what follows is up to the test. */
function heard(flags: number, more: (day: Air) => void, endMs: number): readonly string[] {
  const day = new Air();
  day.session(0, 'opened');
  day.hear(0, 1, flags);
  more(day);
  return told(staleInTime, day, endMs);
}

describe('an old sum is marked stale, and only an old one (TAL-6)', () => {
  it('20 s after a running tally, 150 s after one at rest', () => {
    const marked = (flags: number, atMs: number) => heard(flags, (day) => day.mark(atMs, true), 500_000);
    expect([marked(RUNNING, 20_000), marked(RUNNING, 21_000), marked(0, 150_000)]).toEqual([[], [], []]);
    const early = ['wrong: Edda marks breaker as stale, when nothing of it becomes so'];
    expect([marked(RUNNING, 19_999), marked(0, 149_999), marked(RUNNING, 21_001)]).toEqual([early, early, early]);
  });

  it('is due at the next tally as at the end of the day', () => {
    const live = ['wrong: Edda shows session 1 of breaker as live, old since 07:00:20'];
    expect(heard(RUNNING, () => {}, 21_000)).toEqual([]);
    expect(heard(RUNNING, () => {}, 21_001)).toEqual(live);
    expect(heard(RUNNING, (day) => day.hear(25_000, 2, RUNNING), 26_000)).toEqual(live);
    expect(heard(RUNNING, (day) => day.hear(21_000, 2, RUNNING), 26_000)).toEqual([]);
  });

  it('is not put off by a doubled or late tally, which is nothing new', () => {
    const doubled = (atMs: number) =>
      heard(
        RUNNING,
        (day) => {
          day.hear(15_000, 1, RUNNING);
          day.mark(atMs, true);
        },
        40_000,
      );
    expect(doubled(20_000)).toEqual([]);
    expect(doubled(35_000)).toHaveLength(1);
  });

  it('goes with the next new tally, and not without one', () => {
    const unmarked = (more: (day: Air) => void) =>
      heard(
        RUNNING,
        (day) => {
          day.mark(20_000, true);
          more(day);
        },
        50_000,
      );
    expect(
      unmarked((day) => {
        day.hear(40_000, 2, RUNNING);
        day.mark(40_000, false);
      }),
    ).toEqual([]);
    expect(unmarked((day) => day.mark(40_000, false))).toEqual([
      'wrong: Edda marks breaker as live without having heard anything new',
      'wrong: Edda shows session 1 of breaker as live, old since 07:00:20',
    ]);
    expect(unmarked((day) => day.hear(40_000, 2, 0))).toEqual([
      'wrong: Edda shows session 1 of breaker as stale, though heard at 07:00:40',
    ]);
  });

  it('is not due for a sealed session, nor for an older one than the newest', () => {
    expect(heard(SEALED, () => {}, 500_000)).toEqual([]);
    const newer = heard(
      RUNNING,
      (day) => {
        day.session(5000, 'sealed');
        day.session(5000, 'opened', 2);
        day.hear(5000, 1, 0, 2);
      },
      100_000,
    );
    expect(newer).toEqual([]);
  });
});
