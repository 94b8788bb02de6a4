import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { Bench } from '../../../src/bench/bench.js';
import { pickRun } from '../../../src/cli/scenario/pick-run.js';
import { troubleLines } from '../../../src/show/timeline/troubles.js';
import { plainTimeline } from '../../../src/show/timeline.js';
import { Cursor } from '../../../src/trace/cursor.js';
import { Recorder } from '../../../src/trace/recorder.js';

function eventsOf(scenario: string) {
  const picked = pickRun(fileURLToPath(new URL(`../../../scenarios/${scenario}`, import.meta.url)), {});
  if ('refusal' in picked) throw new Error(picked.refusal);
  const bench = Bench.open(picked.run.day);
  bench.run();
  return bench.events;
}

describe('what happens to devices', () => {
  it('is told of a counter with the sessions that it hands over, in one line', () => {
    const events = eventsOf('counter-of-a-lost-wearable.yaml');
    const told = plainTimeline({ title: '', events, notes: [] });
    expect(told).toContain('14:00:00  breaker  is read out: sessions 1, 2 handed over\n');
    expect(told).toContain('8 points only in the readout of breaker, stale');
    expect(told).not.toContain('on the way');
    // What the panel of the interactive replay shows.
    expect(troubleLines(events).map(({ who, text }) => `${who} ${text}`)).toContain(
      'breaker is read out: sessions 1, 2 handed over',
    );
  });

  it('is told of a tool that is carried in a van, and arrives', () => {
    const events = eventsOf('breaker-carried-in-a-van.yaml');
    const told = plainTimeline({ title: '', events, notes: [] });
    const carried = [19, 21, 29, 31].map((minute) => new Cursor(events).at(minute * 60_000).tools[0]?.carried);
    expect(carried).toEqual([false, true, true, false]);
    expect(told).toContain('07:20:00  breaker  is carried in a van\n');
    expect(told).toContain('07:30:00  breaker  arrives\n');
  });

  it('is told of a wearable, and so is what a closed shift hears late', () => {
    const told = plainTimeline({ title: '', events: eventsOf('wearable-read-out.yaml'), notes: [] });
    expect(told.match(/^.* is read out$/gm)).toEqual([
      '12:00:00  Edda     is read out',
      '15:00:00  Edda     is read out',
    ]);
    // 100 s of the drill at 9.0 m/s², for the shift of the morning.
    expect(told.match(/^.* late .*$/gm)).toEqual([
      '14:00:20  Edda     hears late from drill: 4.5 points for shift 1, which is closed',
    ]);
  });
});

describe('records of a day made by hand', () => {
  const recorder = new Recorder();
  const SUMS = { dose: 0, triggerWindows: 0, unratedWindows: 0, total: 0 };
  const entry = (at: number, shift: number, sums: Partial<typeof SUMS>) =>
    recorder.add(at, 'Edda', 'inner.ledger', 0, { ...SUMS, ...sums, counter: 'saw', session: 1, shift });
  recorder.add(0, 'saw', 'hand.tool', 0, { character: 'rotary', keyedTenths: 60, magnitudeTenths: 60 });
  recorder.add(1, 'Edda', 'inner.shift', 0, { shift: 1, what: 'opened' });
  entry(2, 1, { dose: 1000, triggerWindows: 5 });
  recorder.add(3, 'Edda', 'inner.shift', 0, { shift: 1, what: 'closed' });
  entry(4, 1, { dose: 2000, triggerWindows: 6 });
  // Power fails, and what was not kept is found again.
  entry(5, 1, { dose: 1000, triggerWindows: 5 });
  entry(6, 1, { dose: 2000, triggerWindows: 6 });
  recorder.add(7, 'Edda', 'inner.resumed', 0, { dose: 2000, open: true, shift: 1 });
  entry(8, 1, { dose: 3000, triggerWindows: 7 });
  recorder.add(9, 'Edda', 'inner.resumed', 0, { dose: 2000, open: false, shift: 1 });
  entry(10, 1, { dose: 3000, triggerWindows: 1207, unratedWindows: 1200 });
  recorder.add(11, 'saw', 'shown.record', 10, { bytes: '' });
  recorder.add(12, 'saw', 'shown.record', 11, { bytes: '' });
  recorder.add(12, 'saw', 'inner.session', 11, { session: 4, what: 'read out', with: 'Edda' });
  recorder.add(12, 'saw', 'inner.session', 12, { session: 5, what: 'read out', with: 'Edda' });

  it('have what comes late told once, unrated time in minutes', () => {
    expect(troubleLines(recorder.events).map(({ atMs, text }) => `${atMs} ${text}`)).toEqual([
      '4 hears late from saw: <0.1 points for shift 1, which is closed',
      '10 hears late from saw: 2 min unrated for shift 1, which is closed',
      '11 is read out: every session was delivered',
      '12 is read out: session 4 handed over',
    ]);
  });
});
