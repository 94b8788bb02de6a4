// The invariants of alerts (ACC-3, WEA-2): each a trace that keeps it, and the same with one thing wrong.
import { describe, expect, it } from 'vitest';
import { alertGoesOn } from '../../../src/judge/invariants/alert-goes-on.js';
import { alertWithItsTally } from '../../../src/judge/invariants/alert-with-its-tally.js';
import { noEarlyAlert } from '../../../src/judge/invariants/no-early-alert.js';
import { DayTrace, MINUTE, POINT } from '../day.js';
import { told } from './told.js';

/** Edda's shift 1 comes to so many u after ten minutes. */
function at(dose: number): DayTrace {
  const day = new DayTrace();
  day.session(MINUTE, 'opened');
  day.shift(2 * MINUTE, 'opened');
  day.ledger(10 * MINUTE, 1, { dose });
  return day;
}

describe('no alert comes before its level', () => {
  it('lets "reached" call at the very dose, "exceeded" one u above (ACC-3)', () => {
    const called = (dose: number, level: string) => {
      const day = at(dose);
      day.alert(10 * MINUTE, level);
      return told(noEarlyAlert, day);
    };
    expect(called(100 * POINT, 'action')).toEqual([]);
    expect(called(100 * POINT - 1, 'action')).toEqual([
      'wrong: Edda is alerted of action at 17999999999 u, 1 u too early',
    ]);
    expect(called(400 * POINT + 1, 'limit')).toEqual([]);
    expect(called(400 * POINT, 'limit')).toEqual(['wrong: Edda is alerted of limit at 72000000000 u, 1 u too early']);
  });

  it('judges repetitions too, and the dose of the newest shift only', () => {
    const day = at(100 * POINT);
    day.alert(10 * MINUTE, 'action', 1);
    day.shift(11 * MINUTE, 'opened', 2);
    day.alert(12 * MINUTE, 'action', 2);
    expect(told(noEarlyAlert, day)).toHaveLength(1);
  });

  it('tells of a level that the wearer does not have', () => {
    const day = at(400 * POINT);
    day.alert(10 * MINUTE, 'site');
    expect(told(noEarlyAlert, day)).toEqual(['wrong: Edda is alerted of site, which is none of the levels']);
  });
});

describe('every alert comes with the tally that takes the shift past its level', () => {
  it('comes at the same millisecond, all that one tally passes', () => {
    const day = at(100 * POINT);
    day.alert(10 * MINUTE, 'notice');
    day.alert(10 * MINUTE, 'action');
    day.ledger(11 * MINUTE, 2, { dose: 101 * POINT });
    day.alert(11 * MINUTE, 'action', 1);
    expect(told(alertWithItsTally, day)).toEqual([]);
  });

  it('comes again in the next shift', () => {
    const day = at(80 * POINT);
    day.alert(10 * MINUTE, 'notice');
    day.shift(11 * MINUTE, 'opened', 2);
    day.ledger(12 * MINUTE, 1, { dose: 90 * POINT, session: 2, shift: 2 });
    expect(told(alertWithItsTally, day)).toEqual(['stuck: waiting for the notice alert of Edda, due at 07:12:00']);
    day.alert(12 * MINUTE, 'notice');
    expect(told(alertWithItsTally, day)).toEqual([]);
  });

  it('is not due below the level, nor by late dose of an older shift', () => {
    const day = at(80 * POINT - 1);
    day.shift(11 * MINUTE, 'opened', 2);
    day.ledger(12 * MINUTE, 2, { dose: 100 * POINT });
    expect(told(alertWithItsTally, day)).toEqual([]);
  });

  it('tells of one that comes late, once', () => {
    const day = at(80 * POINT);
    day.alert(10 * MINUTE + 1, 'notice');
    expect(told(alertWithItsTally, day)).toEqual(['wrong: the notice alert of Edda, due at 07:10:00, came only now']);
  });

  it('tells of one that is missing when the next tally comes, or when the day ends', () => {
    const day = at(100 * POINT);
    day.alert(10 * MINUTE, 'notice');
    expect(told(alertWithItsTally, day)).toEqual(['stuck: waiting for the action alert of Edda, due at 07:10:00']);
    day.ledger(11 * MINUTE, 2, { dose: 101 * POINT });
    expect(told(alertWithItsTally, day)).toEqual([
      'wrong: the action alert of Edda, due at 07:10:00, did not come with its tally',
    ]);
  });

  it('tells of one raised twice that is not called a repetition', () => {
    const day = at(80 * POINT);
    day.alert(10 * MINUTE, 'notice');
    day.alert(11 * MINUTE, 'notice');
    expect(told(alertWithItsTally, day)).toEqual([
      'wrong: Edda is alerted of notice a second time in one shift, not as a repetition',
    ]);
  });
});

describe('an alert outlasts a power failure (WEA-5)', () => {
  /** Edda has so much when she starts again at 07:12, having been alerted of what `alerts` says. */
  const restarted = (dose: number, alerts: readonly string[], more: (day: DayTrace) => void = () => {}) => {
    const day = at(80 * POINT);
    for (const level of alerts) day.alert(10 * MINUTE, level);
    more(day);
    day.cut(11 * MINUTE, 'Edda', 'write');
    day.back(12 * MINUTE, 'Edda');
    day.add(12 * MINUTE, 'Edda', 'inner.resumed', { dose, open: true, shift: 1 });
    day.ledger(12 * MINUTE, 1, { dose });
    day.recovered(12 * MINUTE, 'Edda');
    return day;
  };
  const due = (level: string) => `stuck: waiting for the ${level} alert of Edda, due at 07:12:00`;

  it('goes on where nobody has acknowledged it', () => {
    const pending = restarted(80 * POINT, ['notice']);
    expect(told(alertWithItsTally, pending)).toEqual([due('notice')]);
    pending.alert(12 * MINUTE, 'notice', 1);
    expect(told(alertWithItsTally, pending)).toEqual([]);
    const tapped = restarted(80 * POINT, ['notice'], (day) => day.add(10 * MINUTE + 1, 'Edda', 'input.tap', {}));
    expect(told(alertWithItsTally, tapped)).toEqual([]);
  });

  it('is not acknowledged by a tap at digits, nor asleep', () => {
    const tapped = (screen: string) =>
      restarted(80 * POINT, ['notice'], (day) => {
        day.display(10 * MINUTE, 'Edda', { screen });
        day.add(10 * MINUTE + 1, 'Edda', 'input.tap', {});
      });
    expect(
      [tapped('digits'), tapped('asleep'), tapped('points')].map((day) => told(alertWithItsTally, day).length),
    ).toEqual([1, 1, 0]);
  });

  it('comes at the start where power failed at the very moment, a higher one for a lower', () => {
    const late = restarted(100 * POINT, ['notice']);
    expect(told(alertWithItsTally, late)).toEqual([due('notice'), due('action')]);
    late.alert(12 * MINUTE, 'notice', 1);
    expect(told(alertWithItsTally, late)).toEqual([due('action')]);
    late.alert(12 * MINUTE, 'action', 2);
    expect(told(alertWithItsTally, late)).toEqual([]);
    const tooLate = restarted(80 * POINT, ['notice']);
    tooLate.alert(12 * MINUTE + 1, 'notice', 1);
    expect(told(alertWithItsTally, tooLate)).toEqual([
      'wrong: the notice alert of Edda, due at 07:12:00, did not come with its tally',
    ]);
  });

  it('comes again where the dose that it came with was lost, and is due then', () => {
    const lost = restarted(79 * POINT, ['notice']);
    expect(told(alertWithItsTally, lost)).toEqual([]);
    lost.ledger(13 * MINUTE, 2, { dose: 80 * POINT });
    expect(told(alertWithItsTally, lost)).toHaveLength(1);
    lost.alert(13 * MINUTE, 'notice');
    expect(told(alertWithItsTally, lost)).toEqual([]);
    expect(told(noEarlyAlert, restarted(79 * POINT, []))).toEqual([]);
    const early = restarted(79 * POINT, []);
    early.alert(12 * MINUTE, 'notice', 1);
    expect(told(noEarlyAlert, early)).toHaveLength(1);
  });

  it('comes within half a minute of waking where the start was asleep', () => {
    const woken = (calledMs: number | null, endMs: number) => {
      const day = restarted(80 * POINT, ['notice']);
      day.display(12 * MINUTE, 'Edda', { screen: 'asleep' });
      day.display(20 * MINUTE, 'Edda', { screen: 'points' });
      if (calledMs !== null) day.alert(20 * MINUTE + calledMs, 'notice', 5);
      return told(alertWithItsTally, day, endMs).length;
    };
    expect([woken(31_000, 22 * MINUTE), woken(null, 20 * MINUTE + 31_000)]).toEqual([0, 0]);
    expect([woken(31_001, 22 * MINUTE), woken(null, 20 * MINUTE + 31_001)]).toEqual([1, 1]);
  });
});

describe('an alert is repeated until it is acknowledged', () => {
  const called = (times: readonly number[], more: (day: DayTrace) => void, endMs: number) => {
    const day = at(80 * POINT);
    for (const [again, atMs] of times.entries()) day.alert(10 * MINUTE + atMs, 'notice', again);
    more(day);
    return told(alertGoesOn, day, 10 * MINUTE + endMs);
  };
  const nothing = () => {};

  it('every half a minute', () => {
    expect(called([0, 30_000, 60_000], nothing, 90_000)).toEqual([]);
    expect(called([0, 30_000], nothing, 61_001)).toEqual([
      'stuck: waiting for the alert of Edda, called at 07:10:30 and acknowledged by nobody, to be repeated',
    ]);
    expect(called([0, 31_001], nothing, 32_000)).toEqual([
      'wrong: the alert of Edda, called at 07:10:00 and acknowledged by nobody, was not repeated in time',
    ]);
  });

  it.each([
    ['a tap', (day: DayTrace) => day.add(10 * MINUTE + 1000, 'Edda', 'input.tap', {})],
    ['a new shift', (day: DayTrace) => day.shift(10 * MINUTE + 1000, 'opened', 2)],
    ['a lack of power', (day: DayTrace) => day.cut(10 * MINUTE + 1000, 'Edda')],
    ['sleep', (day: DayTrace) => day.display(10 * MINUTE + 1000, 'Edda', { screen: 'asleep' })],
  ])('until %s', (_, more) => {
    expect(called([0], more, 90_000)).toEqual([]);
  });

  it('by the clock of the wearable (CLK-1)', () => {
    const slow = (day: DayTrace) => day.add(0, 'Edda', 'fault.clock', { driftPpm: 0, ppm: -20_000 });
    const day = new DayTrace();
    slow(day);
    day.alert(10 * MINUTE, 'notice');
    expect(
      [told(alertGoesOn, day, 10 * MINUTE + 31_600), told(alertGoesOn, day, 10 * MINUTE + 31_700)].map(
        ({ length }) => length,
      ),
    ).toEqual([0, 1]);
  });
});
