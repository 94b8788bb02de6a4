// What a counter's sensor reads of a tool that starts and stops within windows.
import { expect, it } from 'vitest';
import type { DayEvent } from '../../src/scenario/day.js';
import { eventsOf, run, smallDay } from './small-day.js';

/** Windows that the saw's counter has counted in the end. */
function windowsOf(events: readonly DayEvent[]): number {
  return eventsOf(smallDay(events), 'inner.count').at(-1)?.triggerWindows ?? 0;
}

it.each<readonly [fromMs: number, forMs: number, windows: number]>([
  [0, 1000, 10],
  [50, 950, 10],
  [50, 1000, 11],
  [99, 902, 11],
  [99, 901, 10],
  [1, 998, 10],
  [1, 1000, 11],
])('a run from %i ms for %i ms is felt in %i windows, those that it touches', (fromMs, forMs, windows) => {
  expect(windowsOf([run(fromMs, 'saw', 'Edda', forMs)])).toBe(windows);
});

it('runs that meet within a window are felt as one', () => {
  expect(windowsOf([run(20, 'saw', 'Edda', 430), run(450, 'saw', 'Bram', 530)])).toBe(10);
  expect(windowsOf([run(20, 'saw', 'Edda', 400), run(440, 'saw', 'Bram', 540)])).toBe(10);
});

it('a short pause counts as running, one of half a second does not (TRG-1, TRG-2)', () => {
  expect(windowsOf([run(0, 'saw', 'Edda', 1000), run(1400, 'saw', 'Edda', 1000)])).toBe(24);
  expect(windowsOf([run(0, 'saw', 'Edda', 1000), run(1500, 'saw', 'Edda', 1000)])).toBe(20);
});

it('a window in which the counter’s clock is set slower ends when that clock says so', () => {
  const slower = { atMs: 1050, do: 'clock', device: 'saw', ppm: -20_000, driftPpm: 0, forMs: null } as const;
  // The run stops 1 ms into its eleventh window, which is over after 1101 ms then.
  expect(windowsOf([run(0, 'saw', 'Edda', 1001), slower])).toBe(11);
  expect(windowsOf([run(0, 'saw', 'Edda', 1000), slower])).toBe(10);
});
