// The invariants of power failures, cells and flash: what may be lost by them, and what may not.
import { describe, expect, it } from 'vitest';
import { countedAsRun } from '../../../src/judge/invariants/counted-as-run.js';
import { keptInTime } from '../../../src/judge/invariants/kept-in-time.js';
import { lossesAreTold } from '../../../src/judge/invariants/losses-are-told.js';
import { magnitudeOutlastsPower } from '../../../src/judge/invariants/magnitude-outlasts-power.js';
import { sessionsInOrder } from '../../../src/judge/invariants/sessions-in-order.js';
import { silentWithoutPower } from '../../../src/judge/invariants/silent-without-power.js';
import { DayTrace, MINUTE } from '../day.js';
import { told } from './told.js';

function opened(): DayTrace {
  const day = new DayTrace();
  day.session(0, 'opened');
  return day;
}

/** Power of the breaker's counter fails at 07:02 and is back a minute later, when it finds what `finds` says. */
function restarted(day: DayTrace, during: string, finds: (at: number) => void): DayTrace {
  day.cut(2 * MINUTE, 'breaker', during);
  day.back(3 * MINUTE, 'breaker');
  finds(3 * MINUTE);
  day.recovered(3 * MINUTE, 'breaker');
  return day;
}

describe('a power failure takes at most 10 s of trigger time (KEP-1)', () => {
  /** Kept are 50 windows; counted are so many when power fails; found are so many. */
  const lost = (counted: number, found: number, during = 'now') => {
    const day = opened();
    day.kept(MINUTE, 50);
    day.count(2 * MINUTE, counted);
    restarted(day, during, (at) => {
      day.found(at, 'opened');
      day.count(at, found);
    });
    return told(keptInTime, day);
  };

  it('keeps at least every 10 s of what it counts', () => {
    expect(lost(150, 50)).toEqual([]);
    expect(lost(151, 50)).toEqual(['wrong: session 1 of breaker has counted 10.1 s beyond what its journal holds']);
    const late = opened();
    late.kept(MINUTE, 101);
    expect(told(keptInTime, late)).toHaveLength(1);
  });

  it('starts again with exactly what was kept', () => {
    const had = 'but had kept 72000000 u in 50 windows, 0 of them unrated';
    expect(lost(90, 49)).toEqual([expect.stringContaining(had)]);
    expect(lost(90, 90)).toEqual([expect.stringContaining(had)]);
    expect(lost(90, 51)).toEqual([expect.stringContaining(had)]);
  });

  it('or with what was being written, where power failed within a write or an erase', () => {
    expect([lost(90, 90, 'write'), lost(90, 50, 'write'), lost(90, 90, 'erase')]).toEqual([[], [], []]);
    expect([lost(90, 89, 'write'), lost(90, 90, 'exchange')].map((wrong) => wrong.length)).toEqual([1, 1]);
  });

  it('forgets nothing that it need not say again', () => {
    const silent = opened();
    silent.kept(MINUTE, 50);
    restarted(silent, 'now', (at) => silent.found(at, 'opened'));
    expect(told(keptInTime, silent)).toEqual([expect.stringContaining('starts again with 0 u in 0 windows')]);
    const unclaimed = new DayTrace();
    unclaimed.kept(MINUTE, 50, { session: 0 });
    restarted(unclaimed, 'now', () => {});
    expect(told(keptInTime, unclaimed)).toEqual([
      expect.stringContaining('the unclaimed time of breaker starts again'),
    ]);
  });

  it('asks nothing of a counter that shows that its journal keeps nothing (KEP-4)', () => {
    const day = opened();
    day.display(MINUTE, 'breaker', { icons: ['journal'], screen: 'ready' });
    day.count(2 * MINUTE, 500);
    expect(told(keptInTime, day)).toEqual([]);
  });
});

describe('trigger time is the true handwork, whatever fails', () => {
  it('counts nothing without power, and up to a window at each end with it', () => {
    const counted = (before: number, after: number) => {
      const day = opened();
      day.start(MINUTE);
      day.count(2 * MINUTE, before);
      restarted(day, 'now', (at) => {
        day.found(at, 'opened');
        day.count(at, before - 50);
      });
      day.stop(4 * MINUTE);
      day.count(4 * MINUTE + 600, before - 50 + after);
      return told(countedAsRun, day);
    };
    expect([counted(598, 598), counted(601, 602), counted(600, 600)]).toEqual([[], [], []]);
    expect(counted(597, 600)).toHaveLength(1);
    expect(counted(600, 597)).toHaveLength(1);
    expect(counted(600, 603)).not.toEqual([]);
    expect(counted(600, 1200)).not.toEqual([]);
  });

  it('counts nothing asleep (CEL-1)', () => {
    const counted = (windows: number) => {
      const day = opened();
      day.start(MINUTE);
      day.count(2 * MINUTE, 600);
      day.display(2 * MINUTE, 'breaker', { screen: 'asleep' });
      day.display(3 * MINUTE, 'breaker', { screen: 'ready' });
      day.stop(4 * MINUTE);
      day.count(4 * MINUTE + 600, 600 + windows);
      return told(countedAsRun, day);
    };
    expect(counted(600)).toEqual([]);
    expect(counted(1200)).not.toEqual([]);
  });

  it('counts by its own clock, off by no more than its rate (CLK-1)', () => {
    const counted = (ppm: number, windows: number) => {
      const day = opened();
      day.add(0, 'breaker', 'fault.clock', { driftPpm: 0, ppm });
      day.start(MINUTE);
      day.stop(11 * MINUTE);
      day.count(11 * MINUTE + 700, windows);
      return told(countedAsRun, day);
    };
    expect([counted(20_000, 6120), counted(20_000, 6118), counted(20_000, 6122)]).toEqual([[], [], []]);
    expect([counted(-20_000, 5880), counted(0, 6000)]).toEqual([[], []]);
    expect([counted(20_000, 6123), counted(20_000, 6117), counted(0, 6120)].every(({ length }) => length > 0)).toBe(
      true,
    );
  });

  it('lets a drift gain what it gains, and no more', () => {
    const counted = (windows: number) => {
      const day = opened();
      day.add(0, 'breaker', 'fault.clock', { driftPpm: 1000, ppm: 0 });
      day.start(8 * 60 * MINUTE);
      day.stop(8 * 60 * MINUTE + 1000 * 100);
      day.count(8 * 60 * MINUTE + 1000 * 100 + 700, windows);
      return told(countedAsRun, day);
    };
    // 8000 ppm after eight hours.
    expect([counted(1008), counted(1010)]).toEqual([[], []]);
    expect(counted(1011)).not.toEqual([]);
    expect(counted(1005)).not.toEqual([]);
  });
});

describe('a device without power does nothing, one asleep keeps and sends nothing', () => {
  it('is silent until it has power again', () => {
    const day = opened();
    day.cut(MINUTE, 'breaker');
    day.display(MINUTE + 5, 'breaker', { screen: 'dark' });
    day.back(2 * MINUTE, 'breaker');
    day.display(2 * MINUTE, 'breaker', { screen: 'ready' });
    expect(told(silentWithoutPower, day)).toEqual([]);
  });

  it.each([
    ['counts', (day: DayTrace, at: number) => day.count(at, 1)],
    ['shows', (day: DayTrace, at: number) => day.display(at, 'breaker')],
    ['hears', (day: DayTrace, at: number) => day.heard(at, 0, {}, 'breaker')],
    ['tells', (day: DayTrace, at: number) => day.report(at)],
  ])('tells of one without power that %s', (_, act) => {
    const day = opened();
    day.cut(MINUTE, 'breaker');
    act(day, MINUTE + 5);
    expect(told(silentWithoutPower, day)).toEqual([expect.stringMatching(/^wrong: breaker has no power: /)]);
  });

  it.each([
    ['erases', (day: DayTrace, at: number) => day.add(at, 'breaker', 'flash.erase', { page: 3 })],
    ['keeps', (day: DayTrace, at: number) => day.kept(at, 1)],
    ['tells', (day: DayTrace, at: number) => day.tally(at, 0)],
  ])('tells of one asleep that %s, unless it wakes at that moment (CEL-1)', (_, act) => {
    const asleep = (wakes: boolean) => {
      const day = opened();
      day.display(MINUTE, 'breaker', { screen: 'asleep' });
      act(day, 2 * MINUTE);
      if (wakes) day.display(2 * MINUTE, 'breaker', { screen: 'ready' });
      return told(silentWithoutPower, day);
    };
    expect(asleep(true)).toEqual([]);
    expect(asleep(false)).toEqual([expect.stringMatching(/^wrong: breaker is asleep: /)]);
  });
});

describe('sessions outlast a power failure', () => {
  const found = (before: (day: DayTrace) => void, during: string, finds: (day: DayTrace, at: number) => void) => {
    const day = opened();
    before(day);
    restarted(day, during, (at) => finds(day, at));
    return told(sessionsInOrder, day);
  };
  const nothing = () => {};
  const sealed = (day: DayTrace) => day.session(MINUTE, 'sealed');
  const erasing = (day: DayTrace) => day.add(2 * MINUTE - 100, 'breaker', 'flash.erase', { page: 0 });

  it('as what they were', () => {
    expect(found(nothing, 'now', (day, at) => day.found(at, 'opened'))).toEqual([]);
    expect(found(sealed, 'now', (day, at) => day.found(at, 'sealed'))).toEqual([]);
    expect(found(nothing, 'now', nothing)).toEqual(['wrong: breaker has lost session 1 of breaker, which was opened']);
    expect(found(sealed, 'now', nothing)).toEqual(['wrong: breaker has lost session 1 of breaker, which was sealed']);
    expect(found(nothing, 'now', (day, at) => day.found(at, 'sealed'))).toHaveLength(1);
    expect(found(sealed, 'now', (day, at) => day.found(at, 'opened'))).toHaveLength(1);
  });

  it('and what was being done when power failed in a write may be done', () => {
    expect(found(nothing, 'write', (day, at) => day.found(at, 'sealed'))).toEqual([]);
    expect(found(sealed, 'write', nothing)).toEqual([]);
    const opening = (day: DayTrace, at: number) => {
      day.found(at, 'sealed');
      day.found(at, 'opened', 2, 'Bram');
    };
    expect(found(sealed, 'write', opening)).toEqual([]);
    expect(found(sealed, 'now', opening)).toEqual(['wrong: breaker finds session 2 opened, which it has never opened']);
  });

  it('a session that is let go in a write must be on the ledger', () => {
    const counted = (day: DayTrace) => {
      day.count(MINUTE, 10);
      sealed(day);
    };
    expect(found(counted, 'write', nothing)).toEqual([expect.stringContaining('is let go with 14400000 u')]);
  });

  it('but for what was told while a page was erased (KEP-5)', () => {
    const lately = (day: DayTrace) => {
      erasing(day);
      day.session(2 * MINUTE - 50, 'sealed');
    };
    expect(found(lately, 'now', (day, at) => day.found(at, 'opened'))).toEqual([]);
    expect(found(lately, 'now', nothing)).toHaveLength(1);
    const early = (day: DayTrace) => {
      day.session(2 * MINUTE - 200, 'sealed');
      erasing(day);
    };
    expect(found(early, 'now', (day, at) => day.found(at, 'opened'))).toHaveLength(1);
  });

  it('and none comes back that was let go', () => {
    const delivered = (day: DayTrace) => {
      sealed(day);
      day.session(MINUTE, 'delivered');
    };
    for (const what of ['opened', 'sealed'] as const) {
      expect(found(delivered, 'now', (day, at) => day.found(at, what))).toEqual([
        `wrong: breaker finds session 1 of breaker ${what}, which was delivered`,
      ]);
    }
  });

  it('a readout lets go of what was never delivered, and nothing else does (PAI-7)', () => {
    const readOut = (inReader: boolean) => {
      const day = opened();
      day.count(MINUTE, 10);
      day.session(MINUTE, 'sealed');
      if (inReader) day.add(2 * MINUTE, 'breaker', 'input.readout', {});
      day.session(2 * MINUTE, 'read out');
      return told(sessionsInOrder, day);
    };
    expect(readOut(true)).toEqual([]);
    expect(readOut(false)).toEqual(['wrong: session 1 of breaker is read out, by nobody']);
  });
});

describe('a report tells how often power was lost (KEP-3)', () => {
  const reported = (powerLosses: number, during = 'now') => {
    const day = opened();
    restarted(day, 'now', (at) => day.found(at, 'opened'));
    day.cut(3 * MINUTE, 'breaker', during);
    day.back(4 * MINUTE, 'breaker');
    day.found(4 * MINUTE, 'opened');
    day.recovered(4 * MINUTE, 'breaker');
    day.report(5 * MINUTE, { powerLosses });
    return told(lossesAreTold, day);
  };

  it('as often as it was', () => {
    expect(reported(2)).toEqual([]);
    expect(reported(1)).toEqual(['wrong: breaker reports 1 power losses, and has had 2']);
    expect(reported(3)).toHaveLength(1);
  });

  it('but for a start that was cut short before it was written down', () => {
    expect([reported(1, 'write'), reported(2, 'write')]).toEqual([[], []]);
    expect(reported(0, 'write')).toEqual(['wrong: breaker reports 0 power losses, and has had 1 to 2']);
  });
});

describe('a committed magnitude outlasts a power failure', () => {
  /** 8.0 m/s² are committed at 07:01:30, after 12.0; the counter starts again with so many tenths. */
  const found = (tenths: number, during = 'now', more: (day: DayTrace) => void = () => {}) => {
    const day = opened();
    more(day);
    day.add(MINUTE + 30_000, 'breaker', 'inner.magnitude', { tenths: 80 });
    day.display(MINUTE + 40_000, 'breaker', { screen: 'review', value: 90 });
    if (during === 'soon') day.cut(MINUTE + 30_050, 'breaker');
    else day.cut(2 * MINUTE, 'breaker', during);
    day.back(3 * MINUTE, 'breaker');
    day.add(3 * MINUTE, 'breaker', 'inner.magnitude', { tenths });
    day.recovered(3 * MINUTE, 'breaker');
    return told(magnitudeOutlastsPower, day);
  };

  it('as it was committed last', () => {
    expect(found(80)).toEqual([]);
    const wrong = (tenths: number) =>
      `wrong: breaker starts again with a magnitude of ${tenths} tenths of m/s², and had 80`;
    expect([found(120), found(0), found(90)]).toEqual([[wrong(120)], [wrong(0)], [wrong(90)]]);
  });

  it('or as it was being committed when power failed in a write', () => {
    expect([found(90, 'write'), found(80, 'write')]).toEqual([[], []]);
    expect([found(120, 'write'), found(91, 'write')].map(({ length }) => length)).toEqual([1, 1]);
  });

  it('or as it was before, where the journal was not to be written then (KEP-5)', () => {
    const erasing = (day: DayTrace) => day.add(MINUTE + 29_990, 'breaker', 'flash.erase', { page: 2 });
    expect([found(120, 'soon', erasing), found(80, 'soon', erasing)]).toEqual([[], []]);
    expect([found(120, 'soon'), found(120, 'now', erasing)].map(({ length }) => length)).toEqual([1, 1]);
  });
});
