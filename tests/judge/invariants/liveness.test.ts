// What must have come by the end of a day, once nothing stands in its way (TAL-3, WEA-1, PAI-5).
import { describe, expect, it } from 'vitest';
import { allCharged } from '../../../src/judge/invariants/all-charged.js';
import { allDelivered } from '../../../src/judge/invariants/all-delivered.js';
import { DayTrace, MINUTE } from '../day.js';
import { told } from './told.js';

const AIR = {
  delayFromMs: 1,
  delayToMs: 9,
  duplicateDen: 1,
  duplicateNum: 0,
  errorDen: 1,
  errorNum: 0,
  lossDen: 1,
  lossNum: 1,
};

/** The breaker counts ten windows for Edda at 07:10 and seals the session at 07:20. */
function sealed(more: (day: DayTrace) => void = () => {}): DayTrace {
  const day = new DayTrace();
  day.session(MINUTE, 'opened');
  day.shift(MINUTE, 'opened');
  day.count(10 * MINUTE, 10);
  day.session(20 * MINUTE, 'sealed');
  more(day);
  return day;
}

const OWED = 'stuck: waiting for Edda to acknowledge session 1 of breaker, sealed at 07:20:00';

describe('every ledger has all that its counters counted, once in reach', () => {
  it('holds where it has', () => {
    expect(
      told(
        allCharged,
        sealed((day) => day.ledger(11 * MINUTE, 10)),
      ),
    ).toEqual([]);
  });

  it('says what a ledger waits for', () => {
    const counted = '14400000 u in 10 windows, 0 of them unrated, counted by 07:20:00';
    expect(
      told(
        allCharged,
        sealed((day) => day.ledger(11 * MINUTE, 9)),
      ),
    ).toEqual([
      `stuck: waiting for Edda's ledger to have session 1 of breaker: ${counted}; it has 12960000 u in 9 windows, 0 of them unrated`,
    ]);
    expect(told(allCharged, sealed())).toHaveLength(1);
  });

  it('asks for nothing that was read out of its counter', () => {
    const readOut = (day: DayTrace) => day.session(30 * MINUTE, 'read out');
    expect(told(allCharged, sealed(readOut))).toEqual([]);
  });

  it('asks for nothing that belongs to nobody', () => {
    const day = new DayTrace();
    day.count(MINUTE, 10, { session: 0 });
    expect(told(allCharged, day)).toEqual([]);
  });
});

describe('every sealed session is delivered, once in reach', () => {
  it('holds where it is', () => {
    expect(
      told(
        allDelivered,
        sealed((day) => day.session(21 * MINUTE, 'delivered')),
      ),
    ).toEqual([]);
    expect(told(allDelivered, sealed())).toEqual([OWED]);
  });

  it('is not due before both have been in reach for 120 s', () => {
    expect(told(allDelivered, sealed(), 22 * MINUTE - 1)).toEqual([]);
    expect(told(allDelivered, sealed(), 22 * MINUTE)).toEqual([OWED]);
  });

  it.each(['Edda', 'breaker'])('is not due while %s is away, nor for 120 s after', (name) => {
    const left = (day: DayTrace) => day.add(15 * MINUTE, 'Edda', 'hand.leave', { who: ['Bram', name] });
    expect(told(allDelivered, sealed(left))).toEqual([]);
    const back = (day: DayTrace) => {
      left(day);
      day.add(40 * MINUTE, 'Edda', 'hand.return', { who: [name] });
    };
    expect(told(allDelivered, sealed(back), 42 * MINUTE - 1)).toEqual([]);
    expect(told(allDelivered, sealed(back), 42 * MINUTE)).toEqual([OWED]);
  });

  it('is not due while the air between the two is bad, nor for 120 s after', () => {
    const bad = (day: DayTrace) => day.add(15 * MINUTE, 'breaker', 'fault.air', { ...AIR, worker: 'Edda' });
    expect(told(allDelivered, sealed(bad))).toEqual([]);
    const good = (what: string) => (day: DayTrace) => {
      bad(day);
      day.add(40 * MINUTE, 'breaker', 'fault.lifted', { what });
    };
    expect(told(allDelivered, sealed(good('air Edda')), 42 * MINUTE - 1)).toEqual([]);
    expect(told(allDelivered, sealed(good('air Edda')), 42 * MINUTE)).toEqual([OWED]);
    expect(told(allDelivered, sealed(good('air Bram')))).toEqual([]);
    expect(told(allDelivered, sealed(good('sensor')))).toEqual([]);
  });

  it.each(['Edda', 'breaker'])('is not due while %s has no power, or sleeps, nor for 120 s after', (name) => {
    const off = (day: DayTrace) => day.cut(15 * MINUTE, name);
    expect(told(allDelivered, sealed(off))).toEqual([]);
    const back = (day: DayTrace) => {
      off(day);
      day.back(40 * MINUTE, name);
      if (name === 'breaker') day.found(40 * MINUTE, 'sealed');
      day.recovered(40 * MINUTE, name);
    };
    expect(told(allDelivered, sealed(back), 42 * MINUTE - 1)).toEqual([]);
    expect(told(allDelivered, sealed(back), 42 * MINUTE)).toEqual([OWED]);
    const asleep = (day: DayTrace) => {
      back(day);
      day.display(40 * MINUTE, name, { screen: 'asleep' });
    };
    expect(told(allDelivered, sealed(asleep))).toEqual([]);
    const awake = (day: DayTrace) => {
      asleep(day);
      day.display(50 * MINUTE, name, { screen: 'ready' });
    };
    expect(told(allDelivered, sealed(awake), 52 * MINUTE - 1)).toEqual([]);
    expect(told(allDelivered, sealed(awake), 52 * MINUTE)).toEqual([OWED]);
  });

  it('is not due while the two are attacked, nor for 120 s after the last of it', () => {
    const attacked = (day: DayTrace) => {
      for (const how of ['flood', 'forge']) {
        day.add(15 * MINUTE, 'breaker', 'fault.attack', { everyMs: 100, how, worker: 'Edda' });
      }
      day.add(30 * MINUTE, 'breaker', 'fault.lifted', { what: 'attack Edda' });
    };
    expect(told(allDelivered, sealed(attacked))).toEqual([]);
    const over = (day: DayTrace) => {
      attacked(day);
      day.add(40 * MINUTE, 'breaker', 'fault.lifted', { what: 'attack Edda' });
    };
    expect(told(allDelivered, sealed(over), 42 * MINUTE - 1)).toEqual([]);
    expect(told(allDelivered, sealed(over), 42 * MINUTE)).toEqual([OWED]);
    const throttled = (day: DayTrace) => {
      over(day);
      day.add(41 * MINUTE, 'Edda', 'air.refused', { frame: 'tally', from: 'breaker', reason: 'throttled' });
    };
    expect(told(allDelivered, sealed(throttled), 43 * MINUTE - 1)).toEqual([]);
    expect(told(allDelivered, sealed(throttled), 43 * MINUTE)).toEqual([OWED]);
  });

  it('is not due of a device that shows that its journal keeps nothing (KEP-4), whatever its clock and its flash', () => {
    const broken = (day: DayTrace) => day.display(15 * MINUTE, 'Edda', { icons: ['journal'] });
    expect(told(allDelivered, sealed(broken))).toEqual([]);
    const worn = (day: DayTrace) => {
      day.add(15 * MINUTE, 'Edda', 'fault.page', { page: 3 });
      day.add(15 * MINUTE, 'Edda', 'fault.clock', { driftPpm: 0, ppm: 20_000 });
    };
    expect(told(allDelivered, sealed(worn))).toEqual([OWED]);
  });

  it('is not due of what was read out', () => {
    const readOut = sealed((day) => day.session(21 * MINUTE, 'read out'));
    expect([told(allDelivered, readOut), told(allCharged, readOut)]).toEqual([[], []]);
  });

  it('is due whatever ails another pair', () => {
    const other = (day: DayTrace) => {
      day.add(15 * MINUTE, 'breaker', 'fault.air', { ...AIR, worker: 'Bram' });
      day.add(15 * MINUTE, 'saw', 'fault.air', { ...AIR, worker: 'Edda' });
      day.add(15 * MINUTE, 'Bram', 'hand.leave', { who: ['Bram', 'saw'] });
    };
    expect(told(allDelivered, sealed(other))).toEqual([OWED]);
  });
});
