// What a device has when its power is back: what its flash held, a clock that begins at 0, and the world as it is by then.
import { describe, expect, it } from 'vitest';
import type { DayEvent } from '../../../src/scenario/day.js';
import { attack, cut, MINUTE_MS, ofKind, pair, run, SECOND_MS, smallDay, traceOf } from '../small-day.js';

const AT_MS = 3 * MINUTE_MS;

describe('a counter whose power is back', () => {
  it('counts from there on what runs by then, in windows of its own clock', () => {
    const day = smallDay([
      pair(0, 'saw', 'Edda'),
      run(AT_MS, 'saw', 'Edda', MINUTE_MS),
      cut(AT_MS, 'saw', 'now', 7777),
    ]);
    const events = traceOf(day);
    const started = ofKind(events, 'inner.state', 'saw').filter(({ state }) => state === 'running');
    // Two windows of 100 ms above the level are a start (TRG-1).
    expect(started.map(({ at }) => at)).toEqual([AT_MS + 7777 + 200]);
    // From 7.777 s on it runs for 52.223 s: a window in which it stops is one.
    expect(ofKind(events, 'inner.count', 'saw').at(-1)).toMatchObject({ session: 1, triggerWindows: 523 });
  });

  it('loses at most ten seconds of what it had counted (KEP-1)', () => {
    const day = smallDay([
      pair(0, 'saw', 'Edda'),
      run(MINUTE_MS, 'saw', 'Edda', 4 * MINUTE_MS),
      cut(AT_MS + 4321, 'saw', 'now', 1000),
    ]);
    const counts = ofKind(traceOf(day), 'inner.count', 'saw');
    const before = counts.findLast(({ at }) => at === AT_MS + 4321)!;
    const after = counts.find(({ at }) => at === AT_MS + 4321 + 1000)!;
    expect(before).toMatchObject({ session: 1, triggerWindows: 1243 });
    expect(after.session).toBe(1);
    expect(after.triggerWindows).toBeGreaterThanOrEqual(1243 - 100);
    expect(after.triggerWindows).toBeLessThanOrEqual(1243);
  });

  it('runs as fast or as slow as it did', () => {
    const day = smallDay([
      pair(0, 'saw', 'Edda'),
      { atMs: MINUTE_MS, do: 'clock', device: 'saw', ppm: 20_000, driftPpm: 0, forMs: null },
      cut(AT_MS, 'saw', 'now', 1000),
    ]);
    const told = ofKind(traceOf(day), 'air.tally', 'saw').filter(({ at }) => at > AT_MS);
    // A tally at rest every 60 s (TAL-1), the first at its start: 60 s of a clock that is 2 % fast are 58.823 53 s.
    expect(told.slice(0, 4).map(({ at }) => at - AT_MS - 1000)).toEqual([0, 58_824, 117_648, 176_471]);
  });
});

describe('power that is away', () => {
  it('is back when the last that took it says, and not before', () => {
    const exchange = { atMs: AT_MS + 5000, do: 'exchange', device: 'saw', forMs: MINUTE_MS } as const;
    const events = traceOf(smallDay([cut(AT_MS, 'saw', 'now', 20 * SECOND_MS), exchange]));
    expect(ofKind(events, 'fault.cut').map(({ at, during }) => [at, during])).toEqual([
      [AT_MS, 'now'],
      [AT_MS + 5000, 'exchange'],
    ]);
    expect(ofKind(events, 'fault.lifted').map(({ at }) => at)).toEqual([AT_MS + 5000 + MINUTE_MS]);
  });
});

describe('while the power is away', () => {
  const day = (...events: readonly DayEvent[]) =>
    traceOf(
      smallDay([
        pair(0, 'saw', 'Edda'),
        run(MINUTE_MS, 'saw', 'Edda', 2 * MINUTE_MS),
        cut(AT_MS, 'Edda', 'now', MINUTE_MS),
        ...events,
      ]),
    );

  it('frames are neither heard nor refused', () => {
    const events = day(attack(AT_MS - MINUTE_MS, 'replay', 'saw', 'Edda', 2 * MINUTE_MS, SECOND_MS));
    const heard = events.filter(({ kind, by, at }) => by === 'Edda' && kind.startsWith('air.') && at > AT_MS);
    expect(heard.length).toBeGreaterThan(0);
    expect(heard.filter(({ at }) => at < AT_MS + MINUTE_MS)).toEqual([]);
    expect(ofKind(events, 'air.injected').filter(({ at, to }) => to === 'Edda' && at > AT_MS).length).toBeGreaterThan(
      5,
    );
  });

  it('a press that began before comes to nothing, and one that ends after it begins there', () => {
    const tap = (atMs: number): DayEvent => ({ atMs, do: 'tap', worker: 'Edda', forMs: 500 });
    const events = day(tap(AT_MS - 300), tap(AT_MS + SECOND_MS), tap(AT_MS + MINUTE_MS - 300));
    expect(ofKind(events, 'hand.tap')).toHaveLength(3);
    expect(ofKind(events, 'input.tap', 'Edda').filter(({ at }) => at > AT_MS - SECOND_MS)).toMatchObject([
      { at: AT_MS + MINUTE_MS - 300 + 500 },
    ]);
  });
});
