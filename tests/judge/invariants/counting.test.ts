// The invariants of counting: trigger time against the true handwork, dose against the magnitude, one place for every u.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { countedAsRun } from '../../../src/judge/invariants/counted-as-run.js';
import { countedInOnePlace } from '../../../src/judge/invariants/counted-in-one-place.js';
import { doseOfMagnitude } from '../../../src/judge/invariants/dose-of-magnitude.js';
import { DayTrace, MINUTE } from '../day.js';
import { told } from './told.js';

const U = 1_440_000;

function opened(): DayTrace {
  const day = new DayTrace();
  day.session(0, 'opened');
  return day;
}

describe('trigger time is the true handwork, within a window at each end', () => {
  /** A burst of ranMs at 07:01, of which so many windows are counted by its stop. */
  const burst = (ranMs: number, windows: number) => {
    const day = opened();
    day.start(MINUTE);
    day.stop(MINUTE + ranMs);
    if (windows > 0) day.count(MINUTE + ranMs + 600, windows);
    return told(countedAsRun, day);
  };

  it('allows a window less or more at each end (TRG-4)', () => {
    expect([118, 120, 122].map((windows) => burst(12_000, windows))).toEqual([[], [], []]);
    expect(burst(12_000, 117)).toEqual([
      'wrong: breaker counted 11.7 s of trigger time since 07:01:00, the true handwork allows 11.8 to 12.2 s',
    ]);
    expect(burst(12_000, 123)).toHaveLength(2);
  });

  it('lets a burst below 0.3 s go uncounted, but not a longer one', () => {
    expect([burst(299, 0), burst(299, 4)]).toEqual([[], []]);
    expect(burst(299, 5)).not.toEqual([]);
    expect([burst(301, 0), burst(301, 2)].map((wrong) => wrong.length)).toEqual([1, 0]);
  });

  it('lets a drive be counted wholly, in part or not at all, and nothing beside it (TRG-4)', () => {
    const drive = (windows: number) => {
      const day = opened();
      day.recorder.add(MINUTE, 'breaker', 'hand.carry', 0, {});
      day.recorder.add(2 * MINUTE, 'breaker', 'hand.arrive', 0, {});
      day.count(2 * MINUTE + 1000, windows);
      day.start(3 * MINUTE);
      day.stop(3 * MINUTE + 12_000);
      day.count(3 * MINUTE + 13_000, windows + 117);
      return told(countedAsRun, day);
    };
    const shortRun =
      'wrong: breaker counted 11.7 s of trigger time since 07:03:00, the true handwork allows 11.8 to 12.2 s';
    expect([0, 300, 602].map(drive)).toEqual([[shortRun], [shortRun], [shortRun]]);
    expect(drive(603)).toHaveLength(3);
  });

  it('judges each stretch by itself, so that one error does not hide in another', () => {
    const day = opened();
    for (let n = 0; n < 10; n++) {
      day.start(n * MINUTE + 1000);
      day.stop(n * MINUTE + 11_000);
      day.count(n * MINUTE + 11_600, (n + 1) * 100 + (n === 4 ? 3 : 0) - (n > 4 ? 1 : 0));
    }
    const since = told(countedAsRun, day).map((wrong) => / since (\S+),/.exec(wrong)?.[1]);
    expect(since).toEqual(['07:04:01', '07:04:01', '07:05:01']);
  });

  it('lets a gap below 0.6 s be counted, and no longer one', () => {
    const two = (gapMs: number, windows: number) => {
      const day = opened();
      day.start(MINUTE);
      day.stop(MINUTE + 5000);
      day.start(MINUTE + 5000 + gapMs);
      day.stop(MINUTE + 10_000 + gapMs);
      day.count(MINUTE + 20_000, windows);
      return told(countedAsRun, day);
    };
    expect([two(599, 109), two(599, 96)]).toEqual([[], []]);
    expect(two(700, 105)).not.toEqual([]);
  });

  it('judges tallies and counts while the tool runs', () => {
    const running = (windows: number) => {
      const day = opened();
      day.start(MINUTE);
      day.tally(MINUTE + 5000, windows);
      return told(countedAsRun, day);
    };
    expect(running(51)).toEqual([]);
    expect(running(52)).toEqual([
      'wrong: breaker counted 5.2 s of trigger time since 07:01:00, the true handwork allows 0 to 5.1 s',
    ]);
  });

  it('counts a clipped sensor as running, and need count nothing with a silent one (TRG-5)', () => {
    const faulty = (fault: string, windows: number, later: number) => {
      const day = opened();
      day.add(MINUTE, 'breaker', 'fault.sensor', { fault });
      day.start(MINUTE + 1000);
      day.stop(MINUTE + 6000);
      if (fault !== 'clipped') day.count(MINUTE + 6600, windows);
      day.add(MINUTE + 30_000, 'breaker', 'fault.lifted', { what: 'sensor' });
      day.count(MINUTE + 31_000, windows);
      day.start(2 * MINUTE);
      day.stop(2 * MINUTE + 10_000);
      day.count(2 * MINUTE + 11_000, windows + later);
      return told(countedAsRun, day);
    };
    expect([faulty('clipped', 298, 100), faulty('clipped', 302, 100)]).toEqual([[], []]);
    expect([faulty('silent', 0, 100), faulty('frozen', 52, 100)]).toEqual([[], []]);
    expect(faulty('clipped', 297, 100)).toHaveLength(1);
    expect(faulty('clipped', 303, 100)).not.toEqual([]);
    expect(faulty('silent', 53, 100)).not.toEqual([]);
    expect(faulty('silent', 0, 97)).toHaveLength(1);
  });

  it('lets a sensor that clips soon after a stop count what was withheld (TRG-2)', () => {
    const clips = (afterMs: number, windows: number) => {
      const day = opened();
      day.start(MINUTE);
      day.stop(MINUTE + 5000);
      day.add(MINUTE + 5000 + afterMs, 'breaker', 'fault.sensor', { fault: 'clipped' });
      day.add(MINUTE + 8000 + afterMs, 'breaker', 'fault.lifted', { what: 'sensor' });
      day.count(MINUTE + 20_000, windows);
      return told(countedAsRun, day);
    };
    // 5 s of work, 3 s of a clipped sensor, two windows at the ends of each, and the gap between them.
    expect([clips(599, 89), clips(700, 84)]).toEqual([[], []]);
    expect(clips(700, 85)).not.toEqual([]);
  });

  it('adds sessions and unclaimed time up', () => {
    const day = new DayTrace();
    day.start(MINUTE);
    day.stop(MINUTE + 10_000);
    day.count(MINUTE + 10_600, 100, { session: 0 });
    day.session(2 * MINUTE, 'opened');
    day.start(3 * MINUTE);
    day.stop(3 * MINUTE + 10_000);
    day.count(3 * MINUTE + 10_600, 100);
    expect(told(countedAsRun, day)).toEqual([]);
    day.start(4 * MINUTE);
    day.stop(4 * MINUTE + 10_000);
    day.count(4 * MINUTE + 10_600, 200);
    day.count(4 * MINUTE + 10_600, 200, { session: 0 });
    expect(told(countedAsRun, day)).not.toEqual([]);
  });

  it('holds for any detector that takes the windows which a burst touches, or lies wholly in (TRG-4)', () => {
    const bursts = fc.array(fc.tuple(fc.integer({ min: 300, max: 20_000 }), fc.integer({ min: 800, max: 90_000 })));
    fc.assert(
      fc.property(bursts, fc.boolean(), (spans, inner) => {
        const day = opened();
        let at = 1000;
        let windows = 0;
        for (const [ranMs, restMs] of spans) {
          const stop = at + ranMs;
          windows += inner
            ? Math.max(0, Math.floor(stop / 100) - Math.ceil(at / 100))
            : Math.ceil(stop / 100) - Math.floor(at / 100);
          day.start(at);
          day.stop(stop);
          day.count(stop + 600, windows);
          at = stop + restMs;
        }
        expect(told(countedAsRun, day, at)).toEqual([]);
      }),
    );
  });
});

describe('dose is the magnitude squared times the time, exactly', () => {
  it('holds at one magnitude, over starts, tallies and stops', () => {
    const day = opened();
    day.count(MINUTE, 2);
    day.tally(MINUTE + 5000, 52, { sequence: 1 });
    day.tally(MINUTE + 10_000, 102, { sequence: 2 });
    day.count(MINUTE + 12_000, 120);
    day.tally(MINUTE + 13_000, 102, { sequence: 2 });
    expect(told(doseOfMagnitude, day)).toEqual([]);
  });

  it('tells of one u too many or too few, in a tally as in a count', () => {
    for (const off of [1, -1]) {
      const counted = opened();
      counted.count(MINUTE, 120, { dose: 120 * U + off });
      const talliedToo = opened();
      talliedToo.tally(MINUTE, 120, { dose: 120 * U + off });
      const grown = `grew by ${120 * U + off} u in 120 windows, 0 of them unrated`;
      const wrong = `wrong: session 1 of breaker ${grown}, at a magnitude of 120 tenths of m/s²`;
      expect([told(doseOfMagnitude, counted), told(doseOfMagnitude, talliedToo)]).toEqual([[wrong], [wrong]]);
    }
  });

  it('counts time without a magnitude as unrated, and as nothing else (MAG-6)', () => {
    const unrated = (fields: { dose: number; unratedWindows: number }) => {
      const day = new DayTrace();
      day.count(MINUTE, 50, { session: 0, ...fields }, 'saw');
      return told(doseOfMagnitude, day).length;
    };
    expect(unrated({ dose: 0, unratedWindows: 50 })).toBe(0);
    expect(unrated({ dose: 0, unratedWindows: 0 })).toBe(1);
    expect(unrated({ dose: 50 * U, unratedWindows: 50 })).toBe(1);
    const rated = opened();
    rated.count(MINUTE, 50, { unratedWindows: 1 });
    expect(told(doseOfMagnitude, rated)).toHaveLength(1);
  });

  it('counts what comes after a change at the new magnitude, and what came before at the old (MAG-5)', () => {
    const changed = (after: number, dose: number) => {
      const day = opened();
      day.count(MINUTE, 100);
      day.add(2 * MINUTE, 'breaker', 'inner.magnitude', { tenths: 80 });
      day.count(2 * MINUTE + after, 110, { dose: 100 * U + dose });
      return told(doseOfMagnitude, day).length;
    };
    expect(changed(5000, 10 * 640_000)).toBe(0);
    expect(changed(5000, 10 * U)).toBe(1);
    expect(changed(5000, 9 * 640_000 + U)).toBe(1);
    // Windows of a start that is not yet confirmed may have begun before the change.
    expect([0, 1, 2, 3].map((old) => changed(200, (10 - old) * 640_000 + old * U))).toEqual([0, 0, 0, 1]);
  });

  it('lets a saturated dose stand (ACC-2)', () => {
    const day = opened();
    day.count(MINUTE, 100, { dose: 2 ** 52 - 1 });
    expect(told(doseOfMagnitude, day)).toEqual([]);
  });
});

describe('every u is counted in one place', () => {
  it('counts into the session that is open, and as unclaimed where none is', () => {
    const day = new DayTrace();
    day.count(MINUTE, 10, { session: 0 });
    day.session(2 * MINUTE, 'opened');
    day.count(3 * MINUTE, 20);
    day.session(4 * MINUTE, 'sealed');
    day.count(5 * MINUTE, 15, { session: 0 });
    day.count(6 * MINUTE, 20);
    expect(told(countedInOnePlace, day)).toEqual([]);
  });

  it('tells of what is counted beside the open session', () => {
    const day = opened();
    day.count(MINUTE, 10, { session: 0 });
    expect(told(countedInOnePlace, day)).toEqual([
      'wrong: breaker counts into the unclaimed time of breaker, while session 1 of breaker is what is open',
    ]);
    const sealed = opened();
    sealed.session(MINUTE, 'sealed');
    sealed.count(2 * MINUTE, 10);
    expect(told(countedInOnePlace, sealed)).toHaveLength(1);
  });

  it('tells of a report of unclaimed dose that was never counted so', () => {
    const reported = (unclaimedDose: number) => {
      const day = new DayTrace();
      day.count(MINUTE, 11, { session: 0 });
      day.kept(MINUTE, 10, { session: 0 });
      day.session(2 * MINUTE, 'opened');
      day.report(3 * MINUTE, { unclaimedDose, unclaimedWindows: 10 });
      return told(countedInOnePlace, day);
    };
    expect(reported(10 * U)).toEqual([]);
    expect(reported(10 * U + 1)).toEqual([
      'wrong: breaker reports 14400001 u in 10 windows unclaimed, and has kept 14400000 u in 10 windows so',
    ]);
  });
});
