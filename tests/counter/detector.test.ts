// TRG-1, TRG-2, TRG-3, window by window, against an oracle that looks at the whole list of levels at once.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  DETECTOR_DEFAULTS,
  type Detection,
  type DetectorState,
  detect,
  windowsToDecision,
} from '../../src/counter/detector.js';
import { expectSameHoweverCut, type Run } from '../laws/splitting.js';

const ON = 1000;
const BETWEEN = 999;
const OFF = 599;

interface Found {
  /** Index of every window that counts as running. */
  readonly counted: number[];
  /** "started 1" is a start decided at the end of window 1. */
  readonly decisions: string[];
  readonly state: DetectorState;
}

function feed(runs: readonly Run<number>[]): Found {
  const state = { running: false, pending: 0 };
  const found: Found = { counted: [], decisions: [], state };
  const result: Detection = { used: 0, counted: 0, decision: 'none' };
  let window = 0;
  for (const { item, length } of runs) {
    for (let left = length; left > 0; left -= result.used) {
      const expected = windowsToDecision(DETECTOR_DEFAULTS, state, item);
      detect(DETECTOR_DEFAULTS, state, item, left, result);
      window += result.used;
      for (let back = result.counted; back > 0; back--) found.counted.push(window - back);
      if (result.decision !== 'none') {
        found.decisions.push(`${result.decision} ${window - 1}`);
        expect(result.used).toBe(expected);
      }
    }
  }
  return found;
}

function feedWindows(...levels: number[]): Found {
  return feed(levels.map((item) => ({ item, length: 1 })));
}

/** The brief's words, read over the whole list: which windows count, and how many bursts were too short. */
function oracle(levels: readonly number[]): { counted: number[]; shortBursts: number } {
  const counted: number[] = [];
  let shortBursts = 0;
  let at = 0;
  while (at < levels.length) {
    if (levels[at]! < 1000) at += 1;
    else if (at + 1 === levels.length) break;
    else if (levels[at + 1]! < 1000) {
      shortBursts += 1;
      at += 2;
    } else {
      let end = at;
      while (end < levels.length && !quietFrom(levels, end)) end += 1;
      const last = levels.slice(0, end).findLastIndex((level) => level >= 600);
      for (; at <= last; at++) counted.push(at);
      at = end + 5;
    }
  }
  return { counted, shortBursts };
}

function quietFrom(levels: readonly number[], from: number): boolean {
  return from + 5 <= levels.length && levels.slice(from, from + 5).every((level) => level < 600);
}

const levels = fc.constantFrom(0, 599, 600, 800, 999, 1000, 65_000);

test('TRG-1: running after two windows in a row at or above 1.0 m/s², and not before', () => {
  expect(feedWindows(ON).decisions).toEqual([]);
  expect(feedWindows(ON, ON).decisions).toEqual(['started 1']);
  expect(feedWindows(BETWEEN, BETWEEN, BETWEEN).decisions).toEqual([]);
});

test('TRG-1: a window below the on level resets the count of a start', () => {
  expect(feedWindows(ON, BETWEEN, ON, BETWEEN).decisions).toEqual(['short 1', 'short 3']);
  expect(feedWindows(ON, BETWEEN, ON, ON).decisions).toEqual(['short 1', 'started 3']);
});

test('TRG-1: stopped after five windows in a row below 0.6 m/s²; one at it resets the count of a stop', () => {
  expect(feedWindows(ON, ON, OFF, OFF, OFF, OFF).state.running).toBe(true);
  expect(feedWindows(ON, ON, OFF, OFF, OFF, OFF, OFF).decisions).toEqual(['started 1', 'stopped 6']);
  expect(feedWindows(ON, ON, OFF, OFF, OFF, OFF, 600, OFF, OFF, OFF, OFF).state.running).toBe(true);
});

test('TRG-2: a start is dated to the first window of the run', () => {
  expect(feedWindows(0, ON, ON).counted).toEqual([1, 2]);
});

test('TRG-2: a stop is dated to the last window at or above the off level', () => {
  expect(feedWindows(ON, ON, 600, OFF, OFF, OFF, OFF, OFF).counted).toEqual([0, 1, 2]);
});

test('TRG-2: windows below the off level are withheld until a later one reaches it', () => {
  expect(feedWindows(ON, ON, OFF, OFF, OFF, OFF).counted).toEqual([0, 1]);
  expect(feedWindows(ON, ON, OFF, OFF, OFF, OFF, 600).counted).toEqual([0, 1, 2, 3, 4, 5, 6]);
});

test('TRG-3: a burst of one window is a short burst; one that may still be confirmed is none yet', () => {
  expect(feedWindows(0, ON).decisions).toEqual([]);
  expect(feedWindows(0, ON, 0).decisions).toEqual(['short 2']);
  expect(feedWindows(ON, ON, 0, 0, 0, 0, 0).decisions).not.toContain('short');
});

test('TRG-1 to TRG-3 hold for any levels', () => {
  fc.assert(
    fc.property(fc.array(levels, { maxLength: 60 }), (all) => {
      const { counted, decisions } = feedWindows(...all);
      const shortBursts = decisions.filter((decision) => decision.startsWith('short')).length;
      expect({ counted, shortBursts }).toEqual(oracle(all));
    }),
    { numRuns: 1000 },
  );
});

test('the time of the next decision is told exactly, and where none can come, that none can', () => {
  fc.assert(
    fc.property(fc.array(levels, { maxLength: 20 }), levels, (before, next) => {
      const { state, decisions } = feedWindows(...before);
      const due = windowsToDecision(DETECTOR_DEFAULTS, state, next);
      const after = feedWindows(...before, ...Array.from({ length: 12 }, () => next)).decisions[decisions.length];
      expect(Number(after?.split(' ')[1] ?? Infinity)).toBe(before.length + due - 1);
    }),
    { numRuns: 500 },
  );
});

test('however a run of windows is cut, the same is counted and decided', () => {
  expectSameHoweverCut(levels, 8, feed);
});

test('nothing counted is ever taken back, and no window is counted twice', () => {
  fc.assert(
    fc.property(fc.array(levels, { maxLength: 60 }), (all) => {
      const { counted } = feedWindows(...all);
      expect(counted).toEqual([...new Set(counted)].sort((a, b) => a - b));
    }),
  );
});
