// Days for the bench, written in code: a tool and a worker are made from what a test says of them, in hours and minutes.
import type { Day, DayEvent, ToolSpec, WorkerSpec } from '../../src/scenario/day.js';

export const SECOND = 1000;
export const MINUTE = 60_000;
export const HOUR = 3_600_000;

export function tool(name: string, tenths: number, more: Partial<ToolSpec> = {}): ToolSpec {
  return { name, hand: 'percussive', magnitudeTenths: tenths, keyedTenths: tenths, ...more };
}

export function worker(name: string, more: Partial<WorkerSpec> = {}): WorkerSpec {
  return { name, noticePoints: 80, sitePoints: null, ...more };
}

/** A day from 06:00; events may be given in any order, those of one moment in the order written. */
export function dayOf(
  tools: readonly ToolSpec[],
  workers: readonly WorkerSpec[],
  events: readonly DayEvent[],
  more: Partial<Day> = {},
): Day {
  const sorted = [...events].sort((a, b) => a.atMs - b.atMs);
  return { fromMs: 6 * HOUR, untilMs: 10 * HOUR, seed: 7, regime: 'gb-2005', tools, workers, events: sorted, ...more };
}

/** The worker holds the tool running for forMs. */
export function run(atMs: number, tool: string, by: string, forMs: number): DayEvent {
  return { atMs, do: 'run', tool, by, forMs, held: true };
}

export function pair(atMs: number, tool: string, withWorker: string): DayEvent {
  return { atMs, do: 'pair', tool, with: withWorker };
}
