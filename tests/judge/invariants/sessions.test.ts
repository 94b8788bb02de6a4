// The invariants of sessions and what is said of them: their order, their ends, their tallies.
import { describe, expect, it } from 'vitest';
import { sessionsEndForAReason } from '../../../src/judge/invariants/sessions-end-for-a-reason.js';
import { sessionsInOrder } from '../../../src/judge/invariants/sessions-in-order.js';
import { tallyAsCounted } from '../../../src/judge/invariants/tally-as-counted.js';
import { DayTrace, MINUTE } from '../day.js';
import { told } from './told.js';

const HOUR = 60 * MINUTE;

function opened(): DayTrace {
  const day = new DayTrace();
  day.session(MINUTE, 'opened');
  return day;
}

describe('sessions follow each other', () => {
  it('are opened, sealed and delivered, one after the other', () => {
    const day = opened();
    day.session(2 * MINUTE, 'sealed');
    day.session(2 * MINUTE, 'opened', 2, 'Bram');
    day.session(3 * MINUTE, 'delivered');
    day.session(1 * MINUTE, 'opened', 1, 'Edda', 'saw');
    expect(told(sessionsInOrder, day)).toEqual([]);
  });

  it('never open while one is open, nor under a number that was used', () => {
    const two = opened();
    two.session(2 * MINUTE, 'opened', 2);
    expect(told(sessionsInOrder, two)).toEqual(['wrong: breaker opens session 2 while session 1 of breaker is open']);
    const again = opened();
    again.session(2 * MINUTE, 'sealed');
    again.session(3 * MINUTE, 'opened', 1);
    expect(told(sessionsInOrder, again)).toEqual(['wrong: breaker opens session 1 after session 1']);
  });

  it('are not delivered before they are sealed, nor sealed twice', () => {
    const early = opened();
    early.session(2 * MINUTE, 'delivered');
    expect(told(sessionsInOrder, early)).toEqual(['wrong: session 1 of breaker is delivered, but was opened']);
    const twice = opened();
    twice.session(2 * MINUTE, 'sealed');
    twice.session(3 * MINUTE, 'sealed');
    twice.session(3 * MINUTE, 'sealed', 7);
    expect(told(sessionsInOrder, twice)).toEqual([
      'wrong: session 1 of breaker is sealed, but was sealed',
      'wrong: session 7 of breaker is sealed, but was never opened',
    ]);
  });

  it('are let go only once the ledger has them', () => {
    const delivered = (charged: number) => {
      const day = opened();
      day.count(2 * MINUTE, 10);
      day.session(3 * MINUTE, 'sealed');
      day.ledger(4 * MINUTE, charged);
      day.session(5 * MINUTE, 'delivered');
      return told(sessionsInOrder, day);
    };
    expect(delivered(10)).toEqual([]);
    expect(delivered(9)).toEqual([expect.stringContaining('is let go with 14400000 u in 10 windows')]);
  });

  it('are let go only on an acknowledgement of their last tally', () => {
    const delivered = (highest: number, by = 'Edda') => {
      const day = opened();
      day.tally(2 * MINUTE, 10, { sequence: 6 });
      day.ledger(2 * MINUTE, 10);
      day.count(3 * MINUTE, 10);
      day.session(3 * MINUTE, 'sealed');
      day.tally(3 * MINUTE, 10, { flags: 2, sequence: 7 });
      const heard = day.heardAck(4 * MINUTE, highest, {}, by);
      day.add(4 * MINUTE, 'breaker', 'inner.session', { session: 1, what: 'delivered', with: 'Edda' }, heard);
      return told(sessionsInOrder, day);
    };
    expect(delivered(7)).toEqual([]);
    const wrong = 'wrong: session 1 of breaker is let go, and its last tally is not acknowledged';
    expect([delivered(6), delivered(7, 'Bram')]).toEqual([[wrong], [wrong]]);
  });

  it('are kept, 32 of them at most (PAI-5)', () => {
    const kept = (sessions: number) => {
      const day = new DayTrace();
      for (let session = 1; session <= sessions; session++) {
        day.session(session * MINUTE, 'opened', session);
        day.session(session * MINUTE, 'sealed', session);
      }
      return told(sessionsInOrder, day);
    };
    expect(kept(32)).toEqual([]);
    expect(kept(33)).toEqual(['wrong: breaker keeps 33 sealed sessions']);
  });
});

describe('a session ends for a reason', () => {
  /** Edda's shift is open; the breaker has counted at 07:02; its session is sealed at atMs. */
  const sealedAt = (atMs: number, more: (day: DayTrace) => void = () => {}) => {
    const day = opened();
    day.shift(MINUTE, 'opened');
    day.count(2 * MINUTE, 10);
    more(day);
    day.session(atMs, 'sealed');
    return day;
  };

  it('by the next pairing, at the same moment', () => {
    const day = sealedAt(HOUR);
    const wrong = "wrong: session 1 of breaker ended, though Edda's shift went on and nobody paired";
    expect(told(sessionsEndForAReason, day)).toEqual([wrong]);
    day.session(HOUR, 'opened', 2, 'Bram');
    expect(told(sessionsEndForAReason, day)).toEqual([]);
    const late = sealedAt(HOUR);
    late.session(HOUR + 1, 'opened', 2, 'Bram');
    expect(told(sessionsEndForAReason, late)).toEqual([wrong]);
  });

  it('by the end of the shift, or six hours without running (PAI-6)', () => {
    expect(
      told(
        sessionsEndForAReason,
        sealedAt(HOUR, (day) => day.shift(HOUR - 1, 'closed')),
      ),
    ).toEqual([]);
    expect(told(sessionsEndForAReason, sealedAt(6 * HOUR + 2 * MINUTE))).toEqual([]);
    expect(told(sessionsEndForAReason, sealedAt(6 * HOUR + 2 * MINUTE - 1))).toHaveLength(1);
  });

  it("by the counter's own six hours, which may be two per cent longer or shorter (CLK-1)", () => {
    const sealed = (ppm: number, hours: number) =>
      told(
        sessionsEndForAReason,
        sealedAt(Math.ceil(hours * HOUR) + 2 * MINUTE, (day) =>
          day.add(MINUTE, 'breaker', 'fault.clock', { driftPpm: 0, ppm }),
        ),
      ).length;
    expect([sealed(20_000, 6 / 1.02), sealed(-20_000, 6 / 0.98)]).toEqual([0, 0]);
    expect([sealed(20_000, 5.88), sealed(-20_000, 6.1), sealed(0, 6 / 1.02)]).toEqual([1, 1, 1]);
  });

  it('by a pairing within which power fails', () => {
    const cut = (during: string, afterMs = 0) => {
      const day = sealedAt(HOUR);
      day.cut(HOUR + afterMs, 'breaker', during);
      return told(sessionsEndForAReason, day).length;
    };
    expect([cut('write'), cut('now'), cut('write', 1)]).toEqual([0, 1, 1]);
  });

  it('not by the end of an earlier shift than its own', () => {
    const day = new DayTrace();
    day.shift(0, 'opened');
    day.shift(MINUTE, 'closed');
    day.session(2 * MINUTE, 'opened');
    day.session(HOUR, 'sealed');
    expect(told(sessionsEndForAReason, day)).toHaveLength(1);
  });

  it('by a newer shift than its own', () => {
    const newer = (day: DayTrace) => {
      day.shift(2 * MINUTE, 'closed');
      day.shift(3 * MINUTE, 'opened', 2);
    };
    expect(told(sessionsEndForAReason, sealedAt(HOUR, newer))).toEqual([]);
  });
});

describe('a tally tells what its counter counted', () => {
  it('rises with its number, stays below the next count, and may be told again', () => {
    const day = opened();
    day.count(2 * MINUTE, 2);
    day.tally(3 * MINUTE, 5, { sequence: 1 });
    day.tally(4 * MINUTE, 10, { sequence: 2 });
    day.tally(4 * MINUTE, 5, { sequence: 1 });
    day.count(5 * MINUTE, 10);
    day.session(5 * MINUTE, 'sealed');
    day.tally(6 * MINUTE, 10, { sequence: 3 });
    day.tally(7 * MINUTE, 10, { sequence: 3 });
    expect(told(tallyAsCounted, day)).toEqual([]);
  });

  it('goes to nobody but the wearable of the session (PAI-3)', () => {
    const day = opened();
    day.tally(2 * MINUTE, 0, { to: 'Bram' });
    expect(told(tallyAsCounted, day)).toEqual([
      'wrong: a tally of session 1 of breaker, opened with Edda, goes to Bram',
    ]);
  });

  it('never tells less than before, nor something else under an old number', () => {
    const less = opened();
    less.tally(2 * MINUTE, 10, { sequence: 1 });
    less.tally(3 * MINUTE, 9, { sequence: 2 });
    expect(told(tallyAsCounted, less)).toEqual([expect.stringContaining('told 14400000 u in 10 windows')]);
    const altered = opened();
    altered.tally(2 * MINUTE, 10, { sequence: 1 });
    altered.tally(3 * MINUTE, 11, { sequence: 1 });
    expect(told(tallyAsCounted, altered)).toEqual([expect.stringContaining('under an old number')]);
  });

  it('never tells more than is counted, and nothing new once the session is sealed', () => {
    const more = opened();
    more.tally(2 * MINUTE, 10);
    more.count(3 * MINUTE, 9);
    expect(told(tallyAsCounted, more)).toEqual([expect.stringContaining('but told 14400000 u in 10 windows')]);
    const after = opened();
    after.count(2 * MINUTE, 10);
    after.session(2 * MINUTE, 'sealed');
    after.tally(3 * MINUTE, 11);
    expect(told(tallyAsCounted, after)).toEqual([expect.stringContaining('was sealed with 14400000 u')]);
  });

  it('never tells more than its journal holds (TAL-2), firmware aside, which does not say', () => {
    const day = opened();
    day.kept(2 * MINUTE, 9);
    day.tally(2 * MINUTE, 10, {}, 'breaker', false);
    expect(told(tallyAsCounted, day)).toEqual([
      expect.stringContaining('tells 14400000 u in 10 windows, 0 of them unrated, and its journal holds 12960000 u'),
    ]);
    const firmware = new DayTrace();
    for (const sequence of [1, 2]) firmware.tally(2 * MINUTE, 10 * sequence, { sequence }, 'breaker', false);
    expect(told(tallyAsCounted, firmware)).toEqual([]);
  });

  it('says that a session is sealed only once the journal holds that', () => {
    const told2 = (keptMs: number) => {
      const day = opened();
      day.kept(2 * MINUTE, 10);
      day.count(3 * MINUTE, 10);
      if (keptMs <= 0) day.kept(3 * MINUTE + keptMs, 10);
      day.session(3 * MINUTE, 'sealed');
      if (keptMs > 0) day.kept(3 * MINUTE + keptMs, 10);
      day.tally(3 * MINUTE + 100, 10, { flags: 2, sequence: 3 });
      return told(tallyAsCounted, day);
    };
    expect([told2(0), told2(100)]).toEqual([[], []]);
    expect(told2(-1)).toEqual([
      'wrong: session 1 of breaker tells that it is sealed, and its journal does not hold that yet',
    ]);
  });

  it('comes from sums that fall in a power failure only, and never below what was told or kept (KEP-1)', () => {
    const found = (windows: number) => {
      const day = opened();
      day.kept(2 * MINUTE, 12);
      day.tally(2 * MINUTE, 10);
      day.count(2 * MINUTE, 20);
      day.cut(2 * MINUTE, 'breaker');
      day.back(3 * MINUTE, 'breaker');
      day.found(3 * MINUTE, 'opened');
      day.count(3 * MINUTE, windows);
      day.recovered(3 * MINUTE, 'breaker');
      day.count(4 * MINUTE, windows);
      return told(tallyAsCounted, day);
    };
    expect(found(12)).toEqual([]);
    expect(found(11)[0]).toContain('but kept 17280000 u in 12 windows');
    expect(found(9)[0]).toContain('but told 14400000 u in 10 windows');
    const shrunk = opened();
    shrunk.kept(2 * MINUTE, 12);
    shrunk.kept(3 * MINUTE, 11);
    expect(told(tallyAsCounted, shrunk)).toHaveLength(1);
  });

  it('comes from sums that never fall within a session (ACC-2)', () => {
    const day = opened();
    day.count(2 * MINUTE, 10);
    day.count(3 * MINUTE, 9);
    day.count(3 * MINUTE, 1, { session: 5 });
    expect(told(tallyAsCounted, day)).toEqual([
      expect.stringContaining('and before that 14400000 u in 10 windows'),
      'wrong: session 5 of breaker is counted and was never opened',
    ]);
  });
});
