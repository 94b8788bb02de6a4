// The invariants of a ledger: each a trace that keeps it, and the same with one thing wrong.
import { describe, expect, it } from 'vitest';
import { chargedAsCounted } from '../../../src/judge/invariants/charged-as-counted.js';
import { chargedOnce } from '../../../src/judge/invariants/charged-once.js';
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

describe('nothing is charged twice', () => {
  it('lets a session grow on one ledger, in one shift', () => {
    const day = begun();
    day.ledger(4 * MINUTE, 5);
    day.ledger(5 * MINUTE, 10);
    expect(told(chargedOnce, day)).toEqual([]);
  });

  it('tells of a session on two ledgers', () => {
    const day = begun();
    day.ledger(4 * MINUTE, 5);
    day.ledger(5 * MINUTE, 5, {}, 'Bram');
    expect(told(chargedOnce, day)).toEqual(['wrong: session 1 of breaker is charged to Bram and to Edda']);
  });

  it('tells of a session in two shifts', () => {
    const day = begun();
    day.ledger(4 * MINUTE, 5);
    day.ledger(5 * MINUTE, 10, { shift: 2 });
    expect(told(chargedOnce, day)).toEqual(['wrong: session 1 of breaker is charged to shifts 1 and 2 of Edda']);
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

describe("a ledger holds only its wearer's sessions", () => {
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
