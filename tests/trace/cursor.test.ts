import { describe, expect, it } from 'vitest';
import { Cursor } from '../../src/trace/cursor.js';
import { BEFORE, momentAfter } from '../../src/trace/moment.js';
import { HOUR, longDay, MadeDay, MINUTE } from './made-day.js';

const SEEKS = 2_000;
/** The aim is 1 ms; the bound leaves room for a machine that is busy with something else. */
const BOUND_MS = 5;

describe('Cursor', () => {
  const events = longDay().events();
  const cursor = new Cursor(events);

  it('gives the moment that folding every event gives, for any event, in any order', () => {
    const folded = [BEFORE];
    for (const event of events) folded.push(momentAfter(folded[event.n - 1] ?? BEFORE, event));
    // Steps of a prime through the whole trace, backwards, and the edges of what is kept.
    const wanted = [0, 1, 255, 256, 257, 511, 512, 513, events.length - 1, events.length];
    for (let n = events.length; n >= 0; n -= 997) wanted.push(n);
    for (const n of wanted) expect(cursor.afterEvent(n)).toEqual(folded[n]);
  });

  it('holds everything that happened up to and including a time', () => {
    const day = new Cursor(new MadeDay({ saw: 50 }, ['Edda']).pair(1000, 'saw', 'Edda').events());
    expect(day.at(999).workers[0]?.shift).toBeNull();
    expect(day.at(1000).workers[0]?.shift).toMatchObject({ number: 1, openedAtMs: 1000, closedAtMs: null });
    expect(day.at(5000)).toMatchObject({ atMs: 5000, n: day.events.length });
    expect(day.at(-1)).toMatchObject({ n: 0, workers: [] });
  });

  it('goes to the next and the previous alert, past its repetitions', () => {
    const day = new MadeDay({ saw: 50 }, ['Edda']);
    const raise = (atMs: number, level: string, again: number) =>
      day.step(atMs, (recorder) => recorder.add(atMs, 'Edda', 'shown.alert', 0, { again, level }));
    raise(1000, 'notice', 0);
    raise(1500, 'notice', 1);
    raise(2000, 'action', 0);
    const alerts = new Cursor(day.events());
    expect(alerts.nextAlert(0)).toMatchObject({ at: 1000, level: 'notice' });
    expect(alerts.nextAlert(1000)).toMatchObject({ at: 2000, level: 'action' });
    expect(alerts.nextAlert(2000)).toBeUndefined();
    expect(alerts.previousAlert(2000)).toMatchObject({ at: 1000 });
    expect(alerts.previousAlert(1000)).toBeUndefined();
  });

  it('refuses a trace with a gap, one that runs backwards, and an event that is not there', () => {
    const [first, second, third] = events;
    if (first === undefined || second === undefined || third === undefined) throw new Error('the day is empty');
    expect(() => new Cursor([first, third])).toThrow(/event 3 .* cannot follow event 1/);
    expect(() => new Cursor([{ ...first, at: 5 }, second])).toThrow(/cannot follow/);
    expect(() => cursor.afterEvent(events.length + 1)).toThrow(RangeError);
    expect(() => cursor.afterEvent(-1)).toThrow(RangeError);
  });

  it('seeks anywhere in an 8 h day, backwards too, in well under a millisecond', () => {
    for (let turn = 0; turn < SEEKS; turn++) cursor.at((turn * 8 * HOUR) / SEEKS);
    const tookMs: number[] = [];
    for (let turn = SEEKS; turn > 0; turn--) {
      const startMs = performance.now();
      cursor.at(((turn * 7919) % SEEKS) * ((8 * HOUR) / SEEKS) + MINUTE);
      tookMs.push(performance.now() - startMs);
    }
    tookMs.sort((a, b) => a - b);
    const at = (share: number) => tookMs[Math.floor(share * (tookMs.length - 1))] ?? Number.POSITIVE_INFINITY;
    process.stdout.write(
      `cursor: ${events.length} events; a seek takes ${at(0.5).toFixed(3)} ms (median), ` +
        `${at(0.95).toFixed(3)} ms (95 %), ${at(1).toFixed(3)} ms (longest)\n`,
    );
    expect(events.length).toBeGreaterThan(35_000);
    expect(at(0.95)).toBeLessThan(BOUND_MS);
  });
});
