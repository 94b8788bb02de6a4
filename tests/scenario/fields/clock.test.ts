import { describe, expect, it } from 'vitest';
import { formatClock, parseClock, sinceStart } from '../../../src/scenario/fields/clock.js';
import { messagesOf, readRun, scenarioText } from '../reading.js';

const HOUR = 3_600_000;

describe('times', () => {
  it.each([
    ['00:00', null, 0],
    ['06:50', null, 24_600_000],
    ['23:59:59.999', null, 86_399_999],
    ['07:10:30', null, 25_830_000],
    ['day 2 06:00', 2, 21_600_000],
    ['day 8 06:00:00.001', 8, 21_600_001],
  ])('%s is read', (text, day, ms) => {
    expect(parseClock(text)).toEqual({ day, ms });
  });

  it.each([
    '6:50',
    '24:00',
    '06:60',
    '06:50:60',
    '06:50:00.5',
    '0650',
    '06:50 ',
    'day 0 06:00',
    'day 9 06:00',
    '-06:50',
  ])('%s is none', (text) => {
    expect(parseClock(text)).toBeNull();
  });

  it('without a day is the first such time at or after the start', () => {
    expect(sinceStart({ day: null, ms: 2 * HOUR }, 22 * HOUR)).toBe(4 * HOUR);
    expect(sinceStart({ day: null, ms: 22 * HOUR }, 22 * HOUR)).toBe(0);
    expect(sinceStart({ day: 2, ms: 2 * HOUR }, 22 * HOUR)).toBe(4 * HOUR);
    expect(sinceStart({ day: 1, ms: 2 * HOUR }, 22 * HOUR)).toBe(-20 * HOUR);
  });

  it('is written so that it reads back', () => {
    for (const atMs of [0, 1, 59_999, 60_000, 24 * HOUR - 1, 24 * HOUR, 24 * HOUR + 1, 100 * HOUR + 250]) {
      const clock = parseClock(formatClock(atMs, 22 * HOUR));
      expect(clock === null ? null : sinceStart(clock, 22 * HOUR)).toBe(atMs);
    }
    expect(formatClock(4 * HOUR, 22 * HOUR)).toBe('02:00');
    expect(formatClock(28 * HOUR, 22 * HOUR)).toBe('day 3 02:00');
  });
});

describe('the frame of a day', () => {
  it.each([
    ['06:50', '16:00', 33_000_000],
    ['22:00', '06:00', 8 * HOUR],
    ['06:00', '06:00', 24 * HOUR],
    ['06:00', 'day 2 06:00', 24 * HOUR],
    ['06:00', 'day 8 06:00', 7 * 24 * HOUR],
  ])('from %s until %s', (from, until, untilMs) => {
    const { day } = readRun(scenarioText({ from, until }));
    expect(day.untilMs).toBe(untilMs);
  });

  it('has a start on day 1 and an end within seven days', () => {
    expect(messagesOf({ from: 'day 2 06:00' })).toEqual(['a day begins on day 1']);
    expect(messagesOf({ from: '06:00', until: 'day 1 05:00' })).toEqual(['the day cannot end here']);
    expect(messagesOf({ from: '06:00', until: 'day 8 06:01' })).toEqual(['the day cannot end here']);
  });

  it('holds every step', () => {
    const day = (at: string): string => `[{at: ${at}, close: Edda}]`;
    expect(readRun(scenarioText({ day: day('15:59:59.999') })).day.events).toHaveLength(1);
    for (const at of ['16:00', '06:49', 'day 1 06:49', 'day 2 07:00']) {
      expect(messagesOf({ day: day(at) })).toEqual(['this lies outside the day']);
    }
  });

  it('puts a time before the start on the next day', () => {
    const night = { from: '22:00', until: '06:00', day: '[{at: 02:00, close: Edda}, {at: 23:00, tap: Edda, for: 1s}]' };
    expect(readRun(scenarioText(night)).day.events.map(({ atMs }) => atMs)).toEqual([HOUR, 4 * HOUR]);
  });
});
