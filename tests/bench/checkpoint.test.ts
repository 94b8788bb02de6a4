// The digest of a checkpoint tells two days apart at the first minute in which anything decides them otherwise, also where no
// device has noticed yet.
import { describe, expect, it } from 'vitest';
import type { DayEvent } from '../../src/scenario/day.js';
import { air, attack, cut, eventsOf, MINUTE_MS, pair, smallDay } from './small-day.js';

const AT_MS = 90_000;

/** What the checkpoints say, one a minute from the first on. */
function digestsOf(events: readonly DayEvent[]): readonly string[] {
  return eventsOf(smallDay(events, { untilMs: 2 * MINUTE_MS }), 'inner.checkpoint').map(({ digest }) => digest);
}

const page = (number: number): DayEvent => ({ atMs: AT_MS, do: 'flash', device: 'saw', page: number });
const leave = (who: string): DayEvent => ({ atMs: AT_MS, do: 'leave', who: [who], forMs: null });
const lossy = (den: number) => air(AT_MS, 'saw', 'Edda', { loss: { num: 1, den } });
/** A full cell, so that no device sees another voltage. */
const cell = (atMs: number): DayEvent => ({ atMs, do: 'cell', device: 'saw', toPercent: 100 });
/** So little that no device sees another time. */
const clock = (ppm: number): DayEvent => ({ atMs: AT_MS, do: 'clock', device: 'saw', ppm, driftPpm: 0, forMs: null });

describe('the digest of a checkpoint', () => {
  it.each<readonly [string, DayEvent, DayEvent]>([
    ['which page has gone bad', page(3), page(4)],
    ['who has left', leave('Edda'), leave('Bram')],
    ['which tool is elsewhere', leave('saw'), leave('breaker')],
    ['how the air is', lossy(2), lossy(3)],
    ['since when a cell has been full', cell(AT_MS + 1), cell(AT_MS + 2)],
    ['how wrong a clock is', clock(1), clock(2)],
    [
      'after how many bytes power is to fail',
      cut(AT_MS, 'saw', 'write', 5000, 200),
      cut(AT_MS, 'saw', 'write', 5000, 300),
    ],
    ['in what power is to fail', cut(AT_MS, 'saw', 'write', 5000, 200), cut(AT_MS, 'saw', 'erase', 5000)],
    ['how long power is to fail', cut(AT_MS, 'saw', 'erase', 5000), cut(AT_MS, 'saw', 'erase', 6000)],
    [
      'what somebody with a radio is about',
      attack(AT_MS, 'replay', 'saw', 'Edda', MINUTE_MS, 20_000),
      attack(AT_MS, 'alter', 'saw', 'Edda', MINUTE_MS, 20_000),
    ],
  ])('tells %s, and not before it is so', (_, one, other) => {
    const [before, after] = [digestsOf([one]), digestsOf([other])];
    expect(after[0]).toBe(before[0]);
    expect(after[1]).not.toBe(before[1]);
  });

  it('tells whose frames somebody with a radio has heard', () => {
    const [one, other] = ['Edda', 'Bram'].map((worker) => {
      return digestsOf([pair(0, 'saw', 'Edda'), attack(AT_MS, 'replay', 'saw', worker, MINUTE_MS, 20_000)]);
    });
    expect(one![0]).not.toBe(other![0]);
  });

  it('is the same on the same day', () => {
    const events = [pair(0, 'saw', 'Edda'), lossy(2), cut(AT_MS, 'saw', 'write', 5000, 200)];
    expect(digestsOf(events)).toHaveLength(2);
    expect(digestsOf(structuredClone(events))).toEqual(digestsOf(events));
  });
});
