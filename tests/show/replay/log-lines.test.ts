import { describe, expect, it } from 'vitest';
import { logLines } from '../../../src/show/replay/log-lines.js';
import { Cursor } from '../../../src/trace/cursor.js';
import { HOUR, MadeDay, MINUTE } from '../../trace/made-day.js';

/** 15 m/s² make 7.5 points a minute: the notice level after 10 min 40 s of work, the EAV after 13 min 20 s. */
const cursor = new Cursor(
  new MadeDay({ saw: 150 }, ['Edda'])
    .pair(0, 'saw', 'Edda')
    .work(0, 'saw', 'Edda', HOUR)
    .tap(12 * MINUTE, 'Edda')
    .events(),
);
const troubles = [5, 12.5, 20, 30].map((minutes) => ({
  atMs: minutes * MINUTE,
  who: 'saw',
  text: `fault: trouble at ${minutes}`,
}));
const textsAt = (minutes: number, room: number, wide = false) =>
  logLines(cursor.at(minutes * MINUTE), troubles, room, wide).map(({ text }) => text);

describe('the log', () => {
  it('tells alerts and troubles in order of time, and nothing of what is to come', () => {
    expect(textsAt(14, 9)).toEqual([
      '07:05   saw trouble at 5',
      '07:10   Edda reaches the notice level',
      '07:12   saw trouble at 12.5',
      '07:13 ! Edda reaches the EAV',
    ]);
    expect(textsAt(4, 9)).toEqual([]);
  });

  it('tells more where there is room for it', () => {
    expect(textsAt(14, 9, true).slice(-2)).toEqual([
      '07:12:30   saw trouble at 12.5',
      '07:13:20 ! Edda reaches the EAV, not acknowledged',
    ]);
  });

  it('keeps what nobody has acknowledged, and of the others the newest', () => {
    expect(textsAt(40, 3)).toEqual([
      '07:13 ! Edda reaches the EAV',
      '07:20   saw trouble at 20',
      '07:30   saw trouble at 30',
    ]);
    expect(textsAt(40, 1)).toEqual(['07:13 ! Edda reaches the EAV']);
    expect(textsAt(12.6, 1)).toEqual(['07:12   saw trouble at 12.5']);
  });
});
