import { describe, expect, it } from 'vitest';
import { causesOf, MAX_CAUSES } from '../../src/trace/causes.js';
import { compareTraces, differenceText } from '../../src/trace/compare.js';
import type { TraceEvent } from '../../src/trace/kinds.js';
import { Recorder } from '../../src/trace/recorder.js';

const SEVEN = 7 * 3_600_000;

/** A start, a push it causes, a display the push causes, and a checkpoint. */
function day({ value = 5, icons = ['run'], digest = 'a', by = 'breaker', more = false } = {}): readonly TraceEvent[] {
  const trace = new Recorder();
  const start = trace.add(1000, 'Edda', 'hand.start', 0, { held: true, tool: 'breaker' });
  const push = trace.add(1100, by, 'input.push', start, {});
  trace.add(1200, 'breaker', 'shown.display', push, { icons, screen: 'run', second: -1, value });
  trace.add(60_000, 'bench', 'inner.checkpoint', 0, { digest });
  if (more) trace.add(61_000, 'Edda', 'hand.stop', 0, { tool: 'breaker' });
  return trace.events;
}

describe('compareTraces', () => {
  it('finds no difference between equal traces', () => {
    expect(compareTraces(day(), day())).toBeNull();
    expect(compareTraces([], [])).toBeNull();
  });

  it('names the first differing event, its fields, and the causes in each', () => {
    const difference = compareTraces(day({ value: 5, digest: 'a' }), day({ value: 6, digest: 'b' }));
    expect(difference).toMatchObject({ index: 2, fields: ['value'], statesDifferAtMs: 60_000 });
    expect(difference?.left.event).toMatchObject({ n: 3, value: 5 });
    expect(difference?.right.event).toMatchObject({ n: 3, value: 6 });
    expect(difference?.left.causes.map((event) => event.kind)).toEqual(['input.push', 'hand.start']);
    expect(difference?.right.causes.map((event) => event.n)).toEqual([2, 1]);
  });

  it('sees a difference in every sort of field', () => {
    expect(compareTraces(day({ icons: ['run'] }), day({ icons: ['run', 'low'] }))?.fields).toEqual(['icons']);
    expect(compareTraces(day({ by: 'breaker' }), day({ by: 'saw' }))?.fields).toEqual(['by']);
    const other = new Recorder();
    other.add(1000, 'Edda', 'hand.stop', 0, { tool: 'breaker' });
    expect(compareTraces(day(), other.events)).toMatchObject({ index: 0, fields: ['kind'] });
  });

  it('says which trace has ended', () => {
    const shorter = compareTraces(day(), day({ more: true }));
    expect(shorter).toMatchObject({ index: 4, fields: [], left: { event: undefined, causes: [] } });
    expect(shorter?.right.event?.kind).toBe('hand.stop');
    expect(shorter?.statesDifferAtMs).toBeNull();
  });

  it('does not leap over a difference that heals before the next checkpoint', () => {
    expect(compareTraces(day({ value: 5 }), day({ value: 6 }))).toMatchObject({ index: 2, statesDifferAtMs: null });
  });
});

describe('differenceText', () => {
  it('tells both sides and their causes', () => {
    const difference = compareTraces(day({ value: 5, digest: 'a' }), day({ value: 6, digest: 'b' }));
    expect(difference).not.toBeNull();
    if (difference === null) return;
    expect(differenceText(difference, 'model', 'firmware', SEVEN)).toBe(
      `The traces differ first in event 3, in value.
  model     #3 07:00:01.200 breaker shown.display icons=["run"] screen=run second=-1 value=5 (by #2)
              caused by #2 07:00:01.100 breaker input.push (by #1)
              caused by #1 07:00:01 Edda hand.start held=true tool=breaker
  firmware  #3 07:00:01.200 breaker shown.display icons=["run"] screen=run second=-1 value=6 (by #2)
              caused by #2 07:00:01.100 breaker input.push (by #1)
              caused by #1 07:00:01 Edda hand.start held=true tool=breaker
Devices and world differ from the checkpoint at 07:01:00 on.
`,
    );
  });

  it('cuts a long chain and shows its root', () => {
    const trace = new Recorder();
    for (let n = 0; n < 20; n++) trace.add(n, 'breaker', 'input.push', n, {});
    const other = new Recorder();
    for (let n = 0; n < 19; n++) other.add(n, 'breaker', 'input.push', n, {});
    other.add(19, 'breaker', 'input.hold', 19, {});
    const difference = compareTraces(trace.events, other.events);
    expect(difference).not.toBeNull();
    if (difference === null) return;
    const text = differenceText(difference, 'a', 'b', 0);
    expect(text).toContain('… 10 more, and at the root #1 00:00:00 breaker input.push\n');
    expect(text.split('caused by')).toHaveLength(1 + 2 * 8);
  });
});

describe('causesOf', () => {
  it('ends at the root', () => {
    expect(causesOf(day(), 3).map((event) => event.n)).toEqual([2, 1]);
    expect(causesOf(day(), 1)).toEqual([]);
  });

  it('is bounded', () => {
    const trace = new Recorder();
    for (let n = 0; n < MAX_CAUSES + 50; n++) trace.add(n, 'breaker', 'input.push', n, {});
    expect(causesOf(trace.events, MAX_CAUSES + 50)).toHaveLength(MAX_CAUSES);
  });

  it('refuses a trace that lacks the event or names a later cause', () => {
    expect(() => causesOf(day(), 9)).toThrow('no event 9');
    const trace = new Recorder();
    trace.add(0, 'breaker', 'input.push', 1, {});
    expect(() => causesOf(trace.events, 1)).toThrow('later event');
  });
});
