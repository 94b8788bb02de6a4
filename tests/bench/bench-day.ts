// The day that is measured: 8 h, four workers with a tool each, 2 h of trigger time on every tool in bursts of two minutes.
import type { Day, DayEvent } from '../../src/scenario/day.js';

const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;
const BURST_MS = 2 * MINUTE_MS;
const EVERY_MS = 7 * MINUTE_MS;
const BURSTS = 60;
const TOOLS = ['breaker', 'saw', 'scaler', 'grinder'];
const WORKERS = ['Edda', 'Bram', 'Cato', 'Ines'];

export function benchDay(): Day {
  const events: DayEvent[] = TOOLS.flatMap((tool, index) => {
    const worker = WORKERS[index]!;
    const first = 10 * MINUTE_MS + index * 17_300;
    const runs = Array.from({ length: BURSTS }, (_, burst): DayEvent => {
      return { atMs: first + burst * EVERY_MS, do: 'run', tool, by: worker, forMs: BURST_MS, held: true };
    });
    return [{ atMs: (2 + index) * MINUTE_MS, do: 'pair', tool, with: worker }, ...runs];
  });
  return {
    fromMs: 7 * HOUR_MS,
    untilMs: 8 * HOUR_MS,
    seed: 7,
    regime: 'eu-2002-44',
    tools: TOOLS.map((name, index) => {
      const magnitudeTenths = 30 + 15 * index;
      return { name, hand: 'percussive', magnitudeTenths, keyedTenths: magnitudeTenths };
    }),
    workers: WORKERS.map((name) => ({ name, noticePoints: 80, sitePoints: null })),
    events: events.sort((a, b) => a.atMs - b.atMs),
  };
}
