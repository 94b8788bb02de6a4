// What is left in a cell decides what a device still does (CEL-1): it says so, sleeps, or stops; and a fresh cell mends it.
import { describe, expect, it } from 'vitest';
import type { Day, DayEvent } from '../../../src/scenario/day.js';
import { MINUTE_MS, ofKind, pair, run, SECOND_MS, smallDay, traceOf } from '../small-day.js';

const HOUR_MS = 60 * MINUTE_MS;
const AT_MS = 2 * MINUTE_MS;

const cell = (atMs: number, device: string, toPercent: number): DayEvent => ({ atMs, do: 'cell', device, toPercent });
const exchange = (atMs: number, device: string, forMs: number): DayEvent => ({ atMs, do: 'exchange', device, forMs });

/** Edda works with the saw for five minutes from the first on. */
function workday(...faults: readonly DayEvent[]): Day {
  return smallDay([pair(0, 'saw', 'Edda'), run(MINUTE_MS, 'saw', 'Edda', 5 * MINUTE_MS), ...faults]);
}

/** What a device shows, from a moment on: "ms screen icon …", one entry for each change of screen or icon of a cell. */
function shown(day: Day, device: string, fromMs: number): readonly string[] {
  const displays = ofKind(traceOf(day), 'shown.display', device).map(({ at, screen, icons }) => {
    return { at, text: [screen, ...icons.filter((icon) => icon === 'cell')].join(' ') };
  });
  return displays
    .filter(({ at, text }, index) => at >= fromMs && text !== displays[index - 1]?.text)
    .map(({ at, text }) => `${at} ${text}`);
}

describe.each([
  ['saw', 'ready'],
  ['Edda', 'points'],
])('the cell of %s', (device, screen) => {
  it.each<readonly [percent: number, shows: string]>([
    [100, ''],
    [20, ''],
    [14, `${screen} cell`],
    [6, `${screen} cell`],
    [4, 'asleep'],
    [1, 'asleep'],
    [0, 'dark'],
  ])('with %i %% left makes it show: %s', (percent, shows) => {
    const day = workday(cell(AT_MS, device, percent));
    expect(shown(day, device, AT_MS)).toEqual(shows === '' ? [] : [`${AT_MS} ${shows}`]);
    const [fault] = ofKind(traceOf(day), 'fault.cell');
    expect(fault).toMatchObject({ at: AT_MS, by: device, percent });
  });

  it('that is exchanged is away for as long as was ordered, and then a full one', () => {
    const low = cell(AT_MS, device, 10);
    const day = workday(low, exchange(AT_MS + MINUTE_MS, device, 40 * SECOND_MS));
    expect(shown(day, device, AT_MS).slice(0, 3)).toEqual([
      `${AT_MS} ${screen} cell`,
      `${AT_MS + MINUTE_MS} dark`,
      `${AT_MS + MINUTE_MS + 40 * SECOND_MS} ${screen}`,
    ]);
    expect(ofKind(traceOf(day), 'fault.cut').map(({ by, during }) => [by, during])).toEqual([[device, 'exchange']]);
  });

  it('brings no power back where it is empty, until it is exchanged', () => {
    const day = workday(cell(AT_MS, device, 0), exchange(8 * MINUTE_MS, device, 40 * SECOND_MS));
    const all = traceOf(day);
    expect(ofKind(all, 'fault.cut').map(({ at, during }) => [at, during])).toEqual([
      [AT_MS, 'brown-out'],
      [8 * MINUTE_MS, 'exchange'],
    ]);
    expect(ofKind(all, 'fault.lifted').map(({ at, what }) => [at, what])).toEqual([
      [8 * MINUTE_MS + 40 * SECOND_MS, 'power'],
    ]);
    expect(ofKind(all, 'hand.nothing')).toEqual([]);
  });
});

describe('a counter that sleeps', () => {
  const events = traceOf(workday(cell(AT_MS, 'saw', 3), cell(AT_MS + MINUTE_MS, 'saw', 60)));
  const [asleep, awake] = ofKind(events, 'shown.display', 'saw').filter(({ at, screen }, index, all) => {
    return at >= AT_MS && screen !== all[index - 1]?.screen;
  });

  it('counts nothing and says nothing until its cell is better and it has looked', () => {
    expect(asleep).toMatchObject({ at: AT_MS, screen: 'asleep' });
    // It looks after 1, 2, 4 … s of sleep, at most a minute or so apart.
    expect(awake).toMatchObject({ at: AT_MS + 63 * SECOND_MS, screen: 'ready' });
    const between = events.filter(({ by, at }) => by === 'saw' && at > AT_MS && at < awake!.at);
    const kinds = new Set(between.map(({ kind }) => kind));
    for (const kind of ['air.tally', 'air.heard', 'inner.count', 'inner.kept']) expect(kinds).not.toContain(kind);
  });

  it('then goes on where it was', () => {
    const first = ofKind(events, 'inner.count', 'saw').find(({ at }) => at > awake!.at)!;
    // A minute before, and the two windows of the new start (TRG-1).
    expect(first).toMatchObject({ session: 1, at: awake!.at + 200, triggerWindows: 602 });
  });
});

describe('a cell that runs down', () => {
  it('stops the counter under the load of its tool first, and holds it again when the tool rests', () => {
    const untilMs = 5 * HOUR_MS;
    const toolMs = 3 * HOUR_MS + 50 * MINUTE_MS;
    const day = smallDay([cell(0, 'saw', 1), run(SECOND_MS, 'saw', 'Edda', toolMs)], { untilMs });
    const events = traceOf(day, { keys: false });
    // Of 1 % of 240 mAh, at 400 µA, what is left of the voltage between 2.380 and 1.776 V is 2.0 V after 3 h 46 min 29 s.
    const [stopped] = ofKind(events, 'fault.cut', 'saw');
    expect(stopped).toMatchObject({ during: 'brown-out' });
    expect(Math.abs(stopped!.at - (3 * HOUR_MS + 46 * MINUTE_MS + 30 * SECOND_MS))).toBeLessThan(SECOND_MS);
    const lifted = ofKind(events, 'fault.lifted', 'saw');
    expect(lifted).toHaveLength(1);
    expect(lifted[0]!.at).toBeGreaterThan(SECOND_MS + toolMs);
    expect(ofKind(events, 'shown.display', 'saw').at(-1)).toMatchObject({ screen: 'asleep' });
  });

  it('is seen at once where the tool starts', () => {
    // Running leaves it a little above 2.0 V; half an hour at rest draws it down to where it holds at rest only.
    const runMs = 3 * HOUR_MS + 45 * MINUTE_MS;
    const againMs = runMs + 30 * MINUTE_MS;
    const day = smallDay(
      [cell(0, 'saw', 1), run(0, 'saw', 'Edda', runMs), run(againMs, 'saw', 'Edda', 10 * MINUTE_MS)],
      { untilMs: 5 * HOUR_MS },
    );
    const [first] = ofKind(traceOf(day, { keys: false }), 'fault.cut', 'saw');
    expect(first).toMatchObject({ at: againMs, during: 'brown-out' });
  });
});
