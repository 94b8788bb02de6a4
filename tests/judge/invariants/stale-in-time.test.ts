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

describe('a wearable that starts again knows nothing live (WEA-5)', () => {
  /** Edda hears a tally at 0 ms, loses power at 5 s and starts again at 10 s, when she finds the session. */
  const started = (flags: number, more: (day: Air) => void, endMs: number) =>
    heard(
      flags,
      (day) => {
        day.cut(5000, 'Edda');
        day.back(10_000, 'Edda');
        day.ledger(10_000, 10);
        day.recovered(10_000, 'Edda');
        more(day);
      },
      endMs,
    );
  const live = 'wrong: Edda shows session 1 of breaker as live, old since 07:00:10';

  it('marks a session at once, but for a sealed one', () => {
    expect(started(RUNNING, (day) => day.mark(10_000, true), 500_000)).toEqual([]);
    expect(started(0, (day) => day.mark(10_000, true), 500_000)).toEqual([]);
    expect(started(0, () => {}, 11_001)).toEqual([live]);
    expect(started(SEALED, () => {}, 500_000)).toEqual([]);
    expect(started(SEALED, (day) => day.mark(10_000, true), 500_000)).toHaveLength(1);
  });

  it('shows it as live again with the next new tally, as late as it comes', () => {
    const next = (sequence: number, on: boolean) =>
      started(
        RUNNING,
        (day) => {
          day.mark(10_000, true);
          day.hear(60_000, sequence, RUNNING);
          if (!on) day.mark(60_000, false);
        },
        70_000,
      ).length;
    expect([next(2, false), next(2, true)]).toEqual([0, 1]);
    // What it heard before it may know still, or not.
    expect([next(1, false), next(1, true)]).toEqual([0, 0]);
  });

  it('owes nothing while it has no power', () => {
    const off = heard(RUNNING, (day) => day.cut(5000, 'Edda'), 500_000);
    expect(off).toEqual([]);
    const late = heard(RUNNING, (day) => day.cut(21_001, 'Edda'), 500_000);
    expect(late).toEqual(['wrong: Edda shows session 1 of breaker as live, old since 07:00:20']);
  });
});

describe('what is heard is what counts', () => {
  const second = (how: (day: Air, tally: number) => void, endMs: number) =>
    heard(
      RUNNING,
      (day) => {
        how(day, day.tally(15_000, 10, { bytes: 'abcd', flags: RUNNING, sequence: 2 }));
      },
      endMs,
    ).length;

  it('not what is refused, nor what is damaged, nor what comes to one asleep', () => {
    const taken = (day: Air, tally: number) => day.heard(15_000, tally);
    const refused = (day: Air, tally: number) => {
      const n = day.heard(15_000, tally);
      day.add(15_000, 'Edda', 'air.refused', { frame: 'tally', from: 'breaker', reason: 'throttled' }, n);
    };
    const damaged = (day: Air, tally: number) => day.heard(15_000, tally, { frame: 'damaged' });
    const asleep = (day: Air, tally: number) => {
      day.display(14_000, 'Edda', { screen: 'asleep' });
      day.heard(15_000, tally);
    };
    const waysOf = [taken, refused, damaged, asleep];
    expect(waysOf.map((how) => second(how, 22_000))).toEqual([0, 1, 1, 1]);
  });

  it('but a genuine one that somebody says again', () => {
    const replayed = (bytes: string) => (day: Air) => {
      const n = day.add(15_000, 'bench', 'air.injected', { bytes, how: 'replay', to: 'Edda' });
      day.heard(15_000, n, { frame: 'injected', from: 'bench' });
    };
    expect([second(replayed('abcd'), 22_000), second(replayed('abce'), 22_000)]).toEqual([0, 1]);
  });
});

describe('the wearable has a clock of its own (CLK-1)', () => {
  it('by which a sum grows old up to two per cent sooner or later', () => {
    const marked = (ppm: number, atMs: number) => {
      const day = new Air();
      day.add(0, 'Edda', 'fault.clock', { driftPpm: 0, ppm });
      day.session(0, 'opened');
      day.hear(0, 1, 0);
      day.mark(atMs, true);
      return told(staleInTime, day, 300_000).length;
    };
    expect([marked(20_000, 147_059), marked(-20_000, 153_062)]).toEqual([0, 0]);
    expect([marked(20_000, 147_000), marked(-20_000, 152_900), marked(0, 147_059)]).toEqual([1, 1, 1]);
  });
});
