import { describe, expect, it } from 'vitest';
import type { TraceEvent } from '../../src/trace/kinds.js';
import { Recorder } from '../../src/trace/recorder.js';

describe('Recorder', () => {
  it('numbers events from 1, keeps them, and hands each on as it happens', () => {
    const seen: TraceEvent[] = [];
    const recorder = new Recorder([(event) => seen.push(event)]);
    const push = recorder.add(10, 'saw', 'input.push', 0, {});
    expect(seen).toHaveLength(1);
    expect(recorder.add(10, 'saw', 'inner.magnitude', push, { tenths: 40 })).toBe(2);
    expect(recorder.events).toEqual([
      { at: 10, by: 'saw', cause: 0, kind: 'input.push', n: 1 },
      { at: 10, by: 'saw', cause: 1, kind: 'inner.magnitude', n: 2, tenths: 40 },
    ]);
    expect(seen).toEqual(recorder.events);
  });

  it('keeps nothing where it is told so, and numbers on all the same', () => {
    const seen: TraceEvent[] = [];
    const recorder = new Recorder([(event) => seen.push(event)], false);
    recorder.add(0, 'saw', 'input.push', 0, {});
    recorder.add(0, 'saw', 'input.hold', 0, {});
    expect(recorder.events).toEqual([]);
    expect(seen.map(({ n }) => n)).toEqual([1, 2]);
  });

  it('goes on behind another without disturbing it', () => {
    for (const keep of [true, false]) {
      const first = new Recorder([], keep);
      first.add(0, 'saw', 'input.push', 0, {});
      const second = new Recorder([], keep, first);
      expect(second.add(5, 'saw', 'input.hold', 0, {})).toBe(2);
      expect(second.events).toHaveLength(keep ? 2 : 0);
      expect(first.events).toHaveLength(keep ? 1 : 0);
      expect(first.add(6, 'saw', 'input.push', 0, {})).toBe(2);
    }
  });

  it('is bounded', () => {
    const recorder = new Recorder([], false);
    const fill = () => {
      for (let made = 0; made <= 5_000_000; made++) recorder.add(0, 'saw', 'input.push', 0, {});
    };
    expect(fill).toThrow('more than 5000000 events: the day feeds on itself');
  });
});
