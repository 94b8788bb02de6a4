import { describe, expect, it } from 'vitest';
import { plainTimeline } from '../../src/show/timeline.js';
import { HOUR, LEVELS, MadeDay, MINUTE } from '../trace/made-day.js';

const title = 'A morning at the lock';

describe('plainTimeline', () => {
  const day = new MadeDay({ saw: 60, hammer: 0 }, ['Edda', 'Bram'], { fromMs: 6.75 * HOUR, untilMs: 2 * HOUR });
  day.pair(MINUTE, 'saw', 'Edda');
  for (let burst = 0; burst < 20; burst++) day.work((5 + burst) * MINUTE, 'saw', 'Edda', 12_000);
  day.work(40 * MINUTE, 'saw', 'Edda', 70 * MINUTE).leave(30 * MINUTE, 'Bram', MINUTE);
  day.tap(115 * MINUTE, 'Edda').close(116 * MINUTE, 'Edda');
  const text = plainTimeline({
    title,
    events: day.events(),
    notes: [{ atMs: 20 * MINUTE, ask: 'Why has Bram no points?', say: 'The session is Edda’s.' }],
  });
  const lines = text.split('\n');
  const timeOf = (part: string) => lines.find((line) => line.includes(part))?.slice(0, 8);

  it('begins with title, times and regime, and ends with the caution', () => {
    expect(lines[0]).toBe(title);
    expect(lines[1]).toMatch(/^06:45 to 08:45\. Exposure regime: Great Britain/);
    expect(text).toMatch(/no measuring instrument.*there is still risk\.\n$/);
  });

  it('tells pairings, shifts, alerts, who is out of reach, and notes, each at its time', () => {
    expect(timeOf('saw     is paired with Edda, session 1')).toBe('06:46:00');
    expect(timeOf('shift 1 opens')).toBe('06:46:00');
    // 4.8 points from the bursts, 75.2 more take 62 min 40 s.
    expect(timeOf('! reaches the notice level')).toBe('08:27:40');
    expect(timeOf('Bram    goes out of reach')).toBe('07:15:00');
    expect(timeOf('Bram    is back')).toBe('07:16:00');
    expect(timeOf('note    Why has Bram no points? The session is Edda’s.')).toBe('07:05:00');
    expect(timeOf('Edda    acknowledges')).toBe('08:40:00');
    // 4 min in bursts and 70 min at 6 m/s², 1.2 points a minute: 88.8 points.
    expect(timeOf('shift 1 closes at 88 points')).toBe('08:41:00');
  });

  it('tells starts that follow each other closely as one', () => {
    expect(timeOf('Edda    works with saw until 07:09:12: 20 starts, 4 min 00 s')).toBe('06:50:00');
    expect(timeOf('Edda    works with saw until 08:35:00: one start, 70 min 00 s')).toBe('07:25:00');
  });

  it('tells the points at each half hour of the clock', () => {
    const halfHours = lines.filter((line) => line.slice(8).startsWith('  points'));
    expect(halfHours.map((line) => line.slice(0, 8))).toEqual(['07:00:00', '07:30:00', '08:00:00', '08:30:00']);
    // 20 bursts and 5 min: 9 min at 1.2 points a minute.
    expect(halfHours[1]).toContain('Edda 10 (A(8) 0.82)   Bram 0 (A(8) 0.00)');
  });

  it('speaks of one point, and of several', () => {
    const made = new MadeDay({ saw: 60 }, ['Edda']).pair(0, 'saw', 'Edda').work(MINUTE, 'saw', 'Edda', 55_000);
    const told = plainTimeline({ title, events: made.close(5 * MINUTE, 'Edda').events(), notes: [] });
    // 55 s at 1.2 points a minute.
    expect(told).toContain('shift 1 closes at 1 point\n');
    expect(told).toContain('Edda    1 point, A(8) 0.26 m/s²');
    expect(told).toContain('saw     session 1 of Edda: 1.1 points');
  });

  it('tells how the day ended', () => {
    const end = lines.slice(lines.indexOf('At the end of the day, 08:45:00:') + 1);
    expect(end.slice(0, 4)).toEqual([
      'Edda    88 points, A(8) 2.36 m/s², 11 left to the EAV, 311 left to the ELV, closed',
      'Bram    0 points, A(8) 0.00 m/s², 100 left to the EAV, 400 left to the ELV, no shift',
      'saw     session 1 of Edda: 88.8 points',
      'hammer  never paired, no magnitude set',
    ]);
  });

  it('names the second day past midnight, and everything else that matters', () => {
    const night = new MadeDay({ saw: 60 }, ['Edda'], { fromMs: 23 * HOUR, untilMs: 2 * HOUR });
    night.step(90 * MINUTE, (recorder, at) => {
      recorder.add(at, 'saw', 'inner.magnitude', 0, { tenths: 85 });
      recorder.add(at, 'saw', 'hand.nothing', 0, { reason: 'the tool runs', verb: 'pair' });
      recorder.add(at, 'saw', 'fault.sensor', 0, { fault: 'frozen' });
      recorder.add(at, 'Edda', 'shown.mark', 0, { counter: 'saw', mark: 'stale', on: true });
      recorder.add(at, 'Edda', 'hand.start', 0, { held: false, tool: 'saw' });
    });
    const told = plainTimeline({ title, events: night.events(), notes: [] });
    for (const part of [
      'is set to 8.5 m/s²',
      '"pair" comes to nothing: the tool runs',
      'fault: its sensor is frozen',
      'marks saw as stale',
      'leaves running on the ground: saw until day 2 01:00:00: one start, 30 min 00 s',
    ]) {
      expect(told).toMatch(new RegExp(`day 2 00:30:00 .*${part}`));
    }
  });

  it('says that a wearable is not live, and a counter', () => {
    const dark = new MadeDay({ saw: 60 }, ['Edda', 'Bram'], { fromMs: 0, untilMs: HOUR });
    const shown = (name: string, screen: string) =>
      dark.step(10 * MINUTE, (recorder, at) =>
        recorder.add(at, name, 'shown.display', 0, { icons: [], screen, second: -1, value: -1 }),
      );
    dark.pair(0, 'saw', 'Edda').work(MINUTE, 'saw', 'Edda', 5 * MINUTE);
    shown('Edda', 'dark');
    shown('Bram', 'asleep');
    shown('saw', 'dark');
    const told = plainTimeline({ title, events: dark.events(), notes: [] });
    expect(told).toContain('00:30:00  points  Edda 6 (A(8) 0.61, no power)   Bram 0 (A(8) 0.00, asleep)');
    expect(told).toMatch(/^Edda {4}6 points, A\(8\) 0\.61 m\/s², .*, no power$/m);
    expect(told).toMatch(/^saw {5}session 1 of Edda: 6\.0 points, no power$/m);
  });

  it('does not tell again what a counter was set to when its power is back, unless it is something else', () => {
    const day = new MadeDay({ saw: 60 }, ['Edda'], { fromMs: 0, untilMs: HOUR });
    const starts = (atMs: number, tenths: number) =>
      day.step(atMs, (recorder, at) => {
        recorder.add(at, 'saw', 'shown.display', 0, { icons: [], screen: 'dark', second: -1, value: -1 });
        recorder.add(at, 'saw', 'inner.magnitude', 0, { tenths });
        recorder.add(at, 'saw', 'shown.display', 0, { icons: [], screen: 'ready', second: -1, value: tenths });
      });
    starts(10 * MINUTE, 60);
    starts(20 * MINUTE, 55);
    day.step(30 * MINUTE, (recorder, at) => recorder.add(at, 'saw', 'inner.magnitude', 0, { tenths: 55 }));
    const told = plainTimeline({ title, events: day.events(), notes: [] });
    const set = told.split('\n').filter((line) => line.includes('is set to'));
    expect(set).toEqual(['00:20:00  saw     is set to 5.5 m/s²', '00:30:00  saw     is set to 5.5 m/s²']);
  });

  it('says "exceeds" where reaching is not enough', () => {
    const over = new MadeDay({ saw: 60 }, ['Edda']);
    over.step(MINUTE, (recorder, at) => recorder.add(at, 'Edda', 'shown.alert', 0, { again: 0, level: 'limit' }));
    expect(LEVELS.find(({ level }) => level === 'limit')?.compare).toBe('exceeded');
    expect(plainTimeline({ title, events: over.events(), notes: [] })).toContain('! exceeds the ELV');
  });
});
