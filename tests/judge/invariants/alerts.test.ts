// The invariants of alerts (ACC-3, WEA-2): each a trace that keeps it, and the same with one thing wrong.
import { describe, expect, it } from 'vitest';
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
