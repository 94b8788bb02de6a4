// The invariants of sessions and what is said of them: their order, their ends, their tallies, the frames on the air.
import { describe, expect, it } from 'vitest';
import { heardWasSent } from '../../../src/judge/invariants/heard-was-sent.js';
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

describe('no frame is heard that was not sent', () => {
  it('is the frame of its sender, for its receiver, as often as it arrives', () => {
    const day = opened();
    const tally = day.tally(2 * MINUTE, 1);
    day.heard(2 * MINUTE + 5, tally);
    day.heard(2 * MINUTE + 9, tally);
    const hello = day.pairing(3 * MINUTE, 'hello', 'Edda', 'breaker');
    day.heard(3 * MINUTE, hello, { frame: 'hello', from: 'Edda' }, 'breaker');
    day.heard(4 * MINUTE, day.ack(4 * MINUTE, 1), { frame: 'ack', from: 'Edda' }, 'breaker');
    expect(told(heardWasSent, day)).toEqual([]);
  });

  it.each([
    ['another frame', { frame: 'report' }, 'Edda'],
    ['another sender', { from: 'saw' }, 'Edda'],
    ['another receiver', {}, 'Bram'],
  ])('tells of %s', (_, fields, by) => {
    const day = opened();
    day.heard(2 * MINUTE, day.tally(2 * MINUTE, 1), fields, by);
    expect(told(heardWasSent, day)).toEqual([
      expect.stringMatching(/^wrong: \w+ heard \w+ from \w+, which did not send it$/),
    ]);
  });

  it('tells of a frame out of nothing', () => {
    const day = opened();
    day.heard(2 * MINUTE, 0);
    day.heard(2 * MINUTE, 3);
    expect(told(heardWasSent, day)).toHaveLength(2);
  });
});
