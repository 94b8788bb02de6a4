// Power fails where it is to fail: at once, within a write after so many bytes, within an erase; and it is back when it is to
// be back.
import { describe, expect, it } from 'vitest';
import { Bench } from '../../../src/bench/bench.js';
import type { Day, DayEvent } from '../../../src/scenario/day.js';
import type { TraceEvent } from '../../../src/trace/kinds.js';
import { expectSame } from '../same-trace.js';
import { cut, MINUTE_MS, ofKind, pair, run, SECOND_MS, smallDay, traceOf } from '../small-day.js';

const AT_MS = 2 * MINUTE_MS + 70;
const OFF_MS = 20 * SECOND_MS;

/** Edda works with the saw from the first minute on. */
function workday(fault: DayEvent | null, untilMs = 10 * MINUTE_MS): Day {
  const work = [pair(0, 'saw', 'Edda'), run(MINUTE_MS, 'saw', 'Edda', untilMs - 2 * MINUTE_MS)];
  return smallDay(fault === null ? work : [...work, fault], { untilMs });
}

function cutsOf(events: readonly TraceEvent[]): readonly (readonly [atMs: number, by: string, during: string])[] {
  return ofKind(events, 'fault.cut').map(({ at, by, during }) => [at, by, during]);
}

/** When the power of each device came back. */
function backOf(events: readonly TraceEvent[]): readonly number[] {
  return ofKind(events, 'fault.lifted')
    .filter(({ what }) => what === 'power')
    .map(({ at }) => at);
}

describe.each(['saw', 'Edda'])('power of %s that fails now', (device) => {
  const events = traceOf(workday(cut(AT_MS, device, 'now', OFF_MS)));

  it('is back after the time that was ordered', () => {
    expect(cutsOf(events)).toEqual([[AT_MS, device, 'now']]);
    expect(backOf(events)).toEqual([AT_MS + OFF_MS]);
  });

  it('leaves a dark display, and a device that says, hears and feels nothing', () => {
    const cutAt = ofKind(events, 'fault.cut')[0]!.n;
    const back = ofKind(events, 'fault.lifted')[0]!.n;
    const own = events.filter(({ n, by }) => by === device && n > cutAt && n < back);
    expect(own.map(({ kind }) => kind)).toEqual(expect.arrayContaining(['shown.display']));
    expect(own.filter(({ kind }) => !kind.startsWith('hand.'))).toMatchObject([
      { kind: 'shown.display', screen: 'dark', value: -1, second: -1, icons: [], cause: cutAt },
    ]);
  });

  it('changes nothing of what was before', () => {
    const until = (all: readonly TraceEvent[]) => all.filter(({ at }) => at < AT_MS);
    expectSame(until(events), until(traceOf(workday(null))));
  });
});

/** When the flash of a device has made so many steps, and how many it has made until then, step by step of the bench. */
function stepsOf(day: Day, device: string): readonly { readonly atMs: number; readonly steps: number }[] {
  const bench = Bench.open(day);
  const all = [{ atMs: 0, steps: bench.flashSteps(device) }];
  while (bench.step()) all.push({ atMs: bench.nowMs, steps: bench.flashSteps(device) });
  return all;
}

describe.each(['saw', 'Edda'])('power of %s that fails within a write', (device) => {
  const steps = stepsOf(workday(null), device);
  const before = steps.findLast(({ atMs }) => atMs <= AT_MS)!.steps;

  it.each([0, 1, 5, 27, 100, 1000])('does when %i bytes more are written, and in the middle of the next', (bytes) => {
    const day = workday(cut(AT_MS, device, 'write', OFF_MS, bytes));
    const dueMs = steps.find((one) => one.steps - before > bytes)!.atMs;
    const events = traceOf(day);
    expect(ofKind(events, 'fault.planned').map(({ at, by, what }) => [at, by, what])).toEqual([
      [AT_MS, device, 'cut write'],
    ]);
    expect(cutsOf(events)).toEqual([[dueMs, device, 'write']]);
    expect(backOf(events)).toEqual([dueMs + OFF_MS]);
    const bench = Bench.open(day);
    bench.runTo(dueMs + OFF_MS - 1);
    expect(bench.flashSteps(device) - before).toBe(bytes);
  });
});

describe('power that fails within an erase', () => {
  // So long that the journals, which fill 16 pages before they erase one, have gone round.
  const untilMs = 4.5 * 60 * MINUTE_MS;
  const orderedMs = 30 * MINUTE_MS;
  const whole = traceOf(workday(null, untilMs), { keys: false });

  it.each(['saw', 'Edda'])('of %s does in the next one that begins', (device) => {
    const due = ofKind(whole, 'flash.erase', device)[0];
    const events = traceOf(workday(cut(orderedMs, device, 'erase', OFF_MS), untilMs), { keys: false });
    expect(due).toBeDefined();
    expect(cutsOf(events)).toEqual([[due!.at, device, 'erase']]);
    expect(backOf(events)).toEqual([due!.at + OFF_MS]);
    expect(ofKind(events, 'flash.erase', device).every(({ at }) => at >= due!.at + OFF_MS)).toBe(true);
    expect(ofKind(events, 'flash.recovered', device).at(-1)!.records).toBeGreaterThan(0);
  });

  it('of the saw may fail while one goes on, too; then it is begun again', () => {
    const [erase] = ofKind(whole, 'flash.erase', 'saw');
    const events = traceOf(workday(cut(erase!.at + 50, 'saw', 'now', OFF_MS), untilMs), { keys: false });
    expect(cutsOf(events)).toEqual([[erase!.at + 50, 'saw', 'now']]);
    const backMs = erase!.at + 50 + OFF_MS;
    const [again, next] = ofKind(events, 'flash.erase', 'saw').filter(({ at }) => at >= backMs);
    expect(again!.page).toBe(erase!.page);
    // Whatever waited for its end is written then, and the journal goes on.
    const kept = ofKind(events, 'inner.kept', 'saw').filter(({ at }) => at >= backMs);
    expect(kept.length).toBeGreaterThan(100);
    expect(next).toBeDefined();
  });
});

describe('a failure that was planned', () => {
  it('is void where power fails before it comes', () => {
    // More than that is written in the minutes that follow.
    const day = workday(cut(AT_MS, 'saw', 'write', OFF_MS, 400));
    const events = traceOf({ ...day, events: [...day.events, cut(AT_MS + SECOND_MS, 'saw', 'now', 3 * SECOND_MS)] });
    expect(cutsOf(events)).toEqual([[AT_MS + SECOND_MS, 'saw', 'now']]);
    expect(backOf(events)).toEqual([AT_MS + 4 * SECOND_MS]);
  });
});
