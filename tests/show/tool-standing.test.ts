import { describe, expect, it } from 'vitest';
import { leftText, magnitudeText, runningText, shareOf } from '../../src/show/tool-standing.js';
import { Cursor } from '../../src/trace/cursor.js';
import type { Moment } from '../../src/trace/moment.js';
import type { ToolMoment } from '../../src/trace/moment-tool.js';
import type { WorkerMoment } from '../../src/trace/moment-worker.js';
import { HOUR, MadeDay, MINUTE } from '../trace/made-day.js';

const toolOf = (moment: Moment, name: string) => moment.tools.find((one) => one.name === name) as ToolMoment;
const workerOf = (moment: Moment, name: string) => moment.workers.find((one) => one.name === name) as WorkerMoment;

describe('tool standing', () => {
  const day = new MadeDay({ saw: 60, drill: 30, hammer: 0, plane: 40 }, ['Edda', 'Bram'], { untilMs: 8 * HOUR });
  day.pair(0, 'saw', 'Edda').pair(0, 'drill', 'Edda').pair(0, 'hammer', 'Bram');
  day.work(MINUTE, 'saw', 'Edda', 30 * MINUTE).work(HOUR, 'drill', 'Edda', 40 * MINUTE);
  day.work(2 * HOUR, 'hammer', 'Bram', MINUTE).leave(3 * HOUR, 'plane', MINUTE);
  const cursor = new Cursor(day.events());

  it('says who runs it, whether it is away, whether it lies', () => {
    expect(runningText(toolOf(cursor.at(2 * MINUTE), 'saw'))).toBe('Edda runs it');
    expect(runningText(toolOf(cursor.at(HOUR), 'saw'))).toBe('at rest');
    expect(runningText(toolOf(cursor.at(3 * HOUR), 'plane'))).toBe('away');
    const running = { by: 'Edda', held: false, sinceMs: 0 };
    expect(runningText({ ...toolOf(cursor.at(0), 'saw'), running })).toBe('runs, laid down');
    expect(runningText({ ...toolOf(cursor.at(0), 'saw'), carried: true })).toBe('in a van');
  });

  it('says what the counter is set to, and what the tool makes where that differs', () => {
    const saw = toolOf(cursor.at(0), 'saw');
    expect(magnitudeText(saw)).toBe('6.0');
    expect(magnitudeText({ ...saw, trueTenths: 125 })).toBe('6.0≠12.5');
    expect(magnitudeText(toolOf(cursor.at(0), 'hammer'))).toBe('unset');
  });

  it('says how many minutes are left on it to its owner’s next level, rounded down', () => {
    // 6 m/s² makes 1.2 points a minute: 36 after half an hour, 44 left to the notice level of 80, 36 min 40 s.
    expect(leftText(cursor.at(HOUR - 1), toolOf(cursor.at(HOUR - 1), 'saw'))).toBe('36 min to notice');
    expect(leftText(cursor.at(0), toolOf(cursor.at(0), 'plane'))).toBe('–');
    expect(leftText(cursor.at(HOUR), toolOf(cursor.at(HOUR), 'hammer'))).toBe('not rated');
    const past = cursor.at(HOUR);
    const workers = past.workers.map((worker) => ({ ...worker, dose: 80_000_000_000 }));
    expect(leftText({ ...past, workers }, toolOf(past, 'saw'))).toBe('none, stop');
  });

  it('says instead that its counter has no power, or is asleep', () => {
    const saw = toolOf(cursor.at(HOUR - 1), 'saw');
    const shown = (screen: string) => ({ ...saw, display: { screen, value: -1, second: -1, icons: [] } });
    expect(leftText(cursor.at(HOUR - 1), shown('dark'))).toBe('no power');
    expect(leftText(cursor.at(HOUR - 1), shown('asleep'))).toBe('asleep');
    expect(leftText(cursor.at(HOUR - 1), shown('ready'))).toBe('36 min to notice');
  });

  it('shares the points of a shift out among the tools that gave them', () => {
    const end = cursor.at(8 * HOUR);
    // 36 points from the saw and 12 from the drill.
    expect(shareOf(workerOf(end, 'Edda'), 'saw')).toBe(75);
    expect(shareOf(workerOf(end, 'Edda'), 'drill')).toBe(25);
    expect(shareOf(workerOf(end, 'Bram'), 'saw')).toBeNull();
    // Trigger time without a magnitude gives no points, and no share of them.
    expect(shareOf(workerOf(end, 'Bram'), 'hammer')).toBeNull();
  });
});
