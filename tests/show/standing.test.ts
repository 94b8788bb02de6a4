import { describe, expect, it } from 'vitest';
import { U_PER_POINT } from '../../src/exposure/dose.js';
import {
  doseOnItsWay,
  exposureText,
  levelOf,
  levelsOf,
  pointsUsed,
  readOut,
  rulerEnd,
} from '../../src/show/standing.js';
import { Cursor } from '../../src/trace/cursor.js';
import type { WorkerMoment } from '../../src/trace/moment-worker.js';
import { LEVELS, MadeDay, MINUTE } from '../trace/made-day.js';

const worker = (dose: number): WorkerMoment => ({
  name: 'Edda',
  levels: LEVELS,
  place: 0,
  shift: { number: 1, openedAtMs: 0, closedAtMs: null, long: false, incomplete: [] },
  dose,
  ledger: [],
  keys: [],
  alerts: [],
  display: null,
  stale: [],
});

describe('standing', () => {
  it('truncates points, used and left alike, so that it never promises more than there is', () => {
    const edda = worker(100 * U_PER_POINT - 1);
    expect(pointsUsed(edda)).toBe(99);
    expect(levelOf(edda, 'action')).toMatchObject({ passed: false, left: 0 });
    expect(levelOf(edda, 'limit')).toMatchObject({ passed: false, left: 300 });
  });

  it('passes a level as its regime says: reached, or exceeded', () => {
    expect(levelOf(worker(100 * U_PER_POINT), 'action')).toMatchObject({ passed: true, left: 0 });
    expect(levelOf(worker(400 * U_PER_POINT), 'limit')).toMatchObject({ passed: false, left: 0 });
    expect(levelOf(worker(400 * U_PER_POINT + 1), 'limit')).toMatchObject({ passed: true });
  });

  it('gives A(8) of points: 100 are 2.50 m/s², 400 are 5.00 m/s²', () => {
    // UK Health and Safety Executive, ready reckoner: points at the EAV and the ELV; Directive 2002/44/EC, Article 3.
    expect(exposureText(100 * U_PER_POINT)).toBe('2.50');
    expect(exposureText(400 * U_PER_POINT)).toBe('5.00');
    // EU Guide to good practice, worked example (from memory): 298 points, A(8) = 4.3 m/s².
    expect(exposureText(298 * U_PER_POINT)).toBe('4.32');
  });

  it('names levels in rising order and ends the ruler at the limit value', () => {
    expect(levelsOf(worker(0)).map(({ level }) => level)).toEqual(['notice', 'action', 'limit']);
    expect(rulerEnd(LEVELS)).toBe(400);
    expect(rulerEnd(LEVELS.slice(0, 1))).toBe(80);
  });

  it('tells the dose that a counter holds and the wearable does not have', () => {
    const day = new MadeDay({ saw: 60 }, ['Edda']).pair(0, 'saw', 'Edda');
    day.work(MINUTE, 'saw', 'Edda', 10_000).leave(2 * MINUTE, 'Edda', 3 * MINUTE);
    day.work(3 * MINUTE, 'saw', 'Edda', 10_000).work(6 * MINUTE, 'saw', 'Edda', 10_000);
    const cursor = new Cursor(day.events());
    const onItsWay = (atMs: number) => {
      const moment = cursor.at(atMs);
      return moment.workers.map((one) => doseOnItsWay(moment, one));
    };
    // 6 m/s² for 10 s: 60² · 10 000 u.
    expect(onItsWay(2 * MINUTE)).toEqual([0]);
    expect(onItsWay(4 * MINUTE)).toEqual([36_000_000]);
    expect(onItsWay(7 * MINUTE)).toEqual([0]);
  });

  it('goes by the shift for which a key is kept, however close the next one is (WEA-3)', () => {
    const onItsWay = (shift: number) => {
      const day = new MadeDay({ saw: 60 }, ['Edda']).pair(0, 'saw', 'Edda').close(10_000, 'Edda');
      day.step(11_000, (recorder, at) => {
        recorder.add(at, 'Edda', 'inner.paired', 0, { counter: 'saw', session: 2, shift });
        recorder.add(at, 'saw', 'inner.session', 0, { session: 2, what: 'opened', with: 'Edda' });
        const sums = { dose: 36_000_000, shortBursts: 0, triggerWindows: 100, unratedWindows: 0 };
        recorder.add(at + 20_000, 'saw', 'inner.count', 0, { ...sums, session: 2 });
      });
      const moment = new Cursor(day.events()).at(MINUTE);
      return moment.workers.map((one) => doseOnItsWay(moment, one));
    };
    expect([onItsWay(1), onItsWay(2)]).toEqual([[36_000_000], [0]]);
  });

  it('expects the dose of a session of which nothing has arrived yet, and none of an earlier shift', () => {
    const day = new MadeDay({ saw: 60 }, ['Edda']).pair(0, 'saw', 'Edda').leave(1, 'Edda', 5 * MINUTE);
    day.work(MINUTE, 'saw', 'Edda', 10_000);
    day.step(20 * MINUTE, (recorder, at) => recorder.add(at, 'Edda', 'inner.shift', 0, { shift: 2, what: 'opened' }));
    const cursor = new Cursor(day.events());
    const [early, late] = [cursor.at(4 * MINUTE), cursor.at(30 * MINUTE)];
    expect(early.workers.map((one) => doseOnItsWay(early, one))).toEqual([36_000_000]);
    expect(late.workers.map((one) => doseOnItsWay(late, one))).toEqual([0]);
  });

  it('says of dose that was read out of a counter that it is there alone (PAI-7)', () => {
    const day = new MadeDay({ saw: 60, drill: 60 }, ['Edda', 'Bram'])
      .pair(0, 'saw', 'Edda')
      .leave(1, 'Edda', 50 * MINUTE);
    day.work(MINUTE, 'saw', 'Edda', 10 * MINUTE).pair(12 * MINUTE, 'saw', 'Bram');
    day.step(20 * MINUTE, (recorder, at) => {
      recorder.add(at, 'saw', 'inner.session', 0, { session: 1, what: 'read out', with: 'Edda' });
    });
    const cursor = new Cursor(day.events());
    const wordsAt = (atMs: number) => {
      const moment = cursor.at(atMs);
      const [edda, bram] = moment.workers.map((one) => readOut(moment, one));
      return { edda, bram, onItsWay: moment.workers.map((one) => doseOnItsWay(moment, one)) };
    };
    const none = { points: 0, tools: [] };
    // 6 m/s² make 1.2 points a minute.
    const dose = 60 * 60 * 10 * MINUTE;
    expect(wordsAt(19 * MINUTE)).toEqual({ edda: none, bram: none, onItsWay: [dose, 0] });
    expect(wordsAt(20 * MINUTE)).toEqual({
      edda: { points: 12, tools: ['saw'] },
      bram: none,
      onItsWay: [0, 0],
    });
  });
});
