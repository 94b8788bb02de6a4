// TAL-3, TAL-4: what was said on a whole day is said again to the devices as they are at its end, and nothing comes of it.
import { describe, expect, test } from 'vitest';
import type { Day } from '../../src/scenario/day.js';
import { HOUR } from '../rig/day.js';
import { read, SHIPPED } from '../scenarios/shipped.js';
import { ORDERS, replayDay } from './replayed-day.js';

const PATIENCE = { timeout: 60_000 };

function dayOf(name: string): Day {
  return read(SHIPPED.find((shipped) => shipped.name === name)!.text, name).runs[0]!.day;
}

/** The morning of a day, at whose end every session is open. */
function morningOf(day: Day): Day {
  const untilMs = 12 * HOUR - day.fromMs;
  return { ...day, untilMs, events: day.events.filter(({ atMs }) => atMs < untilMs) };
}

describe.each([
  ['three people and four tools, with handovers, at the end', dayOf('lock-day.yaml'), 6_000],
  ['the same at noon', morningOf(dayOf('lock-day.yaml')), 3_000],
  ['a counter that changes hands', dayOf('shared-counter.yaml'), 1_000],
])('%s', PATIENCE, (_, day, framesAtLeast) => {
  test.each(ORDERS)('shuffled $shuffled, after a power failure $restarted', (how) => {
    const { starts, frames, delivered, taken, refused, more, outcome, untouched } = replayDay(day, how);
    const devices = day.tools.length + day.workers.length;
    expect(starts).toBe(how.restarted ? 2 * devices : devices);
    expect(frames).toBeGreaterThan(framesAtLeast);
    expect(delivered).toBe(2 * frames);
    expect(more).toEqual([]);
    expect(outcome).toEqual(untouched);
    // No key opens what is of a session that is over; what is of one that is not was heard before.
    expect(Object.keys(refused).sort()).toEqual(['foreign', 'replayed', 'unexpected']);
    expect(taken).toBeLessThan(50);
  });
});
