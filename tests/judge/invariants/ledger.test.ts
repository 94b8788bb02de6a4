// The invariants of a ledger: each a trace that keeps it, and the same with one thing wrong.
import { describe, expect, it } from 'vitest';
import { chargedAsCounted } from '../../../src/judge/invariants/charged-as-counted.js';
import { ledgerNeverShrinks } from '../../../src/judge/invariants/ledger-never-shrinks.js';
import { ownSessionsOnly } from '../../../src/judge/invariants/own-sessions-only.js';
import { shiftIsTheSum } from '../../../src/judge/invariants/shift-is-the-sum.js';
import { DayTrace, MINUTE } from '../day.js';
import { told } from './told.js';

const U = 1_440_000;

/** Edda's session 1 of the breaker is opened in her shift 1 and tells 5, then 10 windows. */
function begun(): DayTrace {
  const day = new DayTrace();
  day.session(MINUTE, 'opened');
  day.tally(2 * MINUTE, 5, { sequence: 1 });
  day.shift(2 * MINUTE, 'opened');
  day.tally(3 * MINUTE, 10, { sequence: 2 });
  return day;
}

describe('a ledger never shrinks', () => {
  it('keeps what it has', () => {
    const day = begun();
    day.ledger(4 * MINUTE, 10);
    day.ledger(5 * MINUTE, 10);
    expect(told(ledgerNeverShrinks, day)).toEqual([]);
  });

  it.each([
    [{ dose: 5 * U }, '7200000 u in 10 windows, 0 of them unrated'],
    [{ triggerWindows: 9 }, '14400000 u in 9 windows, 0 of them unrated'],
  ])('tells of an entry that fell: %j', (fields, after) => {
    const day = begun();
    day.ledger(4 * MINUTE, 10);
    day.ledger(5 * MINUTE, 10, fields);
    const before = '14400000 u in 10 windows, 0 of them unrated';
    expect(told(ledgerNeverShrinks, day)).toEqual([
      `wrong: Edda's entry for session 1 of breaker fell from ${before} to ${after}`,
    ]);
  });
});

describe('a ledger outlasts a power failure of its wearable', () => {
  /** Edda has 5 windows, then 10; power fails, and she finds so many, or none are told of. */
  const found = (windows: number | null, more: (day: DayTrace) => void = () => {}, during = 'now') => {
    const day = begun();
    day.ledger(3 * MINUTE, 5);
    more(day);
    day.ledger(4 * MINUTE, 10);
    day.cut(4 * MINUTE + 50, 'Edda', during);
    day.back(5 * MINUTE, 'Edda');
    day.add(5 * MINUTE, 'Edda', 'inner.resumed', { dose: (windows ?? 0) * U, open: true, shift: 1 });
    if (windows !== null) day.ledger(5 * MINUTE, windows);
    day.recovered(5 * MINUTE, 'Edda');
    return day;
  };
  const erasing = (day: DayTrace) => day.add(4 * MINUTE, 'Edda', 'flash.erase', { page: 1 });

  it('and has all that it had (WEA-5)', () => {
    expect(told(ledgerNeverShrinks, found(10))).toEqual([]);
    expect(told(ledgerNeverShrinks, found(9))).toHaveLength(1);
    expect(told(ledgerNeverShrinks, found(null))).toEqual([
      expect.stringContaining('fell from 14400000 u in 10 windows, 0 of them unrated to 0 u in 0 windows'),
    ]);
    expect(told(ledgerNeverShrinks, found(9, undefined, 'write'))).toHaveLength(1);
  });

  it('but for what came while a page was erased (KEP-5)', () => {
    expect([5, 10].map((windows) => told(ledgerNeverShrinks, found(windows, erasing)))).toEqual([[], []]);
    expect(told(ledgerNeverShrinks, found(4, erasing))).toHaveLength(1);
    const earlier = (day: DayTrace) => day.add(4 * MINUTE - 1000, 'Edda', 'flash.erase', { page: 1 });
    expect(told(ledgerNeverShrinks, found(5, earlier))).toHaveLength(1);
  });

  it('and not of what was acknowledged even so', () => {
    const day = begun();
    erasing(day);
    day.ledger(4 * MINUTE, 10);
    day.ack(4 * MINUTE + 10, 2);
    day.cut(4 * MINUTE + 50, 'Edda');
    day.back(5 * MINUTE, 'Edda');
    day.ledger(5 * MINUTE, 5);
    day.recovered(5 * MINUTE, 'Edda');
    expect(told(ledgerNeverShrinks, day)).toHaveLength(1);
  });

  it('and goes on from what it found', () => {
    const goesOn = (windows: number) => {
      const day = found(5, erasing);
      day.ledger(6 * MINUTE, windows);
      return [told(ledgerNeverShrinks, day), told(shiftIsTheSum, day)].flat();
    };
    expect(goesOn(6)).toEqual([]);
    expect(goesOn(4)).toHaveLength(1);
  });

  it('adds up again once it has told all (WEA-1)', () => {
    expect(told(shiftIsTheSum, found(10))).toEqual([]);
    const two = (total: number) => {
      const day = begun();
      day.ledger(3 * MINUTE, 5);
      day.session(3 * MINUTE, 'opened', 1, 'Edda', 'saw');
      day.ledger(4 * MINUTE, 3, { counter: 'saw', total: 8 * U });
      day.cut(4 * MINUTE + 50, 'Edda');
      day.back(5 * MINUTE, 'Edda');
      day.ledger(5 * MINUTE, 5, { total });
      day.ledger(5 * MINUTE, 3, { counter: 'saw', total });
      day.recovered(5 * MINUTE, 'Edda');
      return told(shiftIsTheSum, day);
    };
    expect(two(8 * U)).toEqual([]);
    expect(two(8 * U + 1)).toEqual([`wrong: shift 1 of Edda has ${8 * U + 1} u, its entries add up to ${8 * U} u`]);
  });
});

describe('a ledger holds only what its counters counted', () => {
  it('may hold what was told', () => {
    const day = begun();
    day.ledger(4 * MINUTE, 10);
    expect(told(chargedAsCounted, day)).toEqual([]);
  });

  it('tells of one u more, one window more, and a session that never was', () => {
    for (const fields of [{ dose: 10 * U + 1 }, { triggerWindows: 11, dose: 10 * U }, { unratedWindows: 1 }]) {
      const day = begun();
      day.ledger(4 * MINUTE, 10, fields);
      expect(told(chargedAsCounted, day)).toEqual([expect.stringContaining('which told 14400000 u in 10 windows')]);
    }
    const day = begun();
    day.ledger(4 * MINUTE, 1, { session: 2 });
    expect(told(chargedAsCounted, day)).toEqual(['wrong: session 2 of breaker is charged and was never opened']);
  });
});

describe("nothing is charged twice: a ledger holds only its wearer's sessions, each in its shift", () => {
  it('tells of a session on two ledgers, and in two shifts', () => {
    const day = begun();
    day.ledger(4 * MINUTE, 5);
    day.ledger(5 * MINUTE, 10);
    day.ledger(5 * MINUTE, 5, {}, 'Bram');
    day.ledger(6 * MINUTE, 10, { shift: 2 });
    expect(told(ownSessionsOnly, day)).toEqual([
      'wrong: Bram is charged for session 1 of breaker, which was opened with Edda',
      'wrong: session 1 of breaker is charged to shift 2 of Edda, in which it was not paired',
    ]);
  });

  it('takes a session into the shift that is open, or that its pairing opens', () => {
    const day = begun();
    day.ledger(4 * MINUTE, 10);
    day.session(5 * MINUTE, 'opened', 1, 'Edda', 'saw');
    day.ledger(6 * MINUTE, 10, { counter: 'saw' });
    expect(told(ownSessionsOnly, day)).toEqual([]);
  });

  it('tells of a session opened with another, and of unclaimed dose that is charged (PAI-4)', () => {
    const other = begun();
    other.ledger(4 * MINUTE, 10, {}, 'Bram');
    expect(told(ownSessionsOnly, other)).toEqual([
      'wrong: Bram is charged for session 1 of breaker, which was opened with Edda',
    ]);
    const unclaimed = begun();
    unclaimed.ledger(4 * MINUTE, 1, { session: 0 });
    expect(told(ownSessionsOnly, unclaimed)).toEqual([
      'wrong: Edda is charged for the unclaimed time of breaker, which belongs to nobody',
    ]);
  });

  it('takes late dose into the shift in which it was paired, and into no other (WEA-3)', () => {
    const late = (shift: number) => {
      const day = begun();
      day.ledger(4 * MINUTE, 5);
      day.shift(5 * MINUTE, 'closed');
      day.session(6 * MINUTE + 59_000, 'opened', 1, 'Edda', 'saw');
      day.shift(7 * MINUTE, 'opened', 2);
      day.ledger(7 * MINUTE, 1, { counter: 'saw', shift: 2 });
      day.ledger(8 * MINUTE, 10, { counter: 'saw', shift });
      day.ledger(8 * MINUTE, 10, { shift: 1 });
      return told(ownSessionsOnly, day);
    };
    expect(late(2)).toEqual([]);
    const wrong = (shift: number) =>
      `wrong: session 1 of saw is charged to shift ${shift} of Edda, in which it was not paired`;
    expect(late(1)).toEqual([wrong(1)]);
    expect(late(3)).toEqual([wrong(3)]);
  });
});

describe('a key is kept for the shift that is open, or for the next', () => {
  it.each([
    ['before the first', () => {}, 1],
    ['while one is open', (day: DayTrace) => day.shift(MINUTE, 'opened', 3), 3],
    [
      'when one is closed',
      (day: DayTrace) => {
        day.shift(MINUTE, 'opened', 3);
        day.shift(MINUTE, 'closed', 3);
      },
      4,
    ],
  ])('%s', (_, before, expected) => {
    const kept = (shift: number) => {
      const day = new DayTrace();
      before(day);
      day.add(2 * MINUTE, 'Edda', 'inner.paired', { counter: 'breaker', session: 1, shift });
      return told(ownSessionsOnly, day);
    };
    expect(kept(expected)).toEqual([]);
    expect(kept(expected + 1)).toEqual([`wrong: Edda keeps the key of session 1 of breaker for shift ${expected + 1}`]);
  });
});

describe("a shift's dose is the sum over the ledger", () => {
  it('adds up sessions of one shift, and shifts apart', () => {
    const day = begun();
    day.ledger(4 * MINUTE, 5);
    day.ledger(5 * MINUTE, 10);
    day.session(6 * MINUTE, 'opened', 1, 'Edda', 'saw');
    day.ledger(7 * MINUTE, 3, { counter: 'saw', total: 13 * U });
    day.session(8 * MINUTE, 'opened', 2, 'Edda', 'saw');
    day.ledger(9 * MINUTE, 4, { counter: 'saw', session: 2, shift: 2, total: 4 * U });
    day.ledger(9 * MINUTE, 1, { counter: 'saw', session: 3 }, 'Bram');
    expect(told(shiftIsTheSum, day)).toEqual([]);
  });

  it('tells of a sum that is one u off, or that takes another shift along', () => {
    const day = begun();
    day.ledger(4 * MINUTE, 5, { total: 5 * U + 1 });
    expect(told(shiftIsTheSum, day)).toEqual([
      `wrong: shift 1 of Edda has ${5 * U + 1} u, its entries add up to ${5 * U} u`,
    ]);
    const mixed = begun();
    mixed.ledger(4 * MINUTE, 5);
    mixed.ledger(5 * MINUTE, 10, { counter: 'saw', shift: 2, total: 15 * U });
    expect(told(shiftIsTheSum, mixed)).toHaveLength(1);
  });
});
