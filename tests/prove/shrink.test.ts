// Random days come again from their seed, and one that fails is made short: what is not needed for it to fail is left out.
import { expect, test } from 'vitest';
import { faultyDay } from '../../src/prove/days/day.js';
import { FEATURES } from '../../src/prove/days/swarm.js';
import { dayOfSeed, type Fails, shorten, shrinkSeed } from '../../src/prove/shrink.js';
import type { Day } from '../../src/scenario/day.js';
import { writeScenario } from '../../src/scenario/write.js';
import { readRun } from '../scenario/reading.js';

const days = faultyDay();

const has = (day: Day, verb: string) => day.events.some((event) => event.do === verb);
/** Fails by two events that belong together. */
const fails: Fails = (day) => has(day, 'cut') && day.events.some((event) => event.do === 'run' && event.forMs > 10_000);

const failing = Array.from({ length: 50 }, (_, seed) => seed).filter((seed) => fails(dayOfSeed(days, seed)));

test('a seed draws the same day again, and another seed another', () => {
  expect(dayOfSeed(days, 7)).toEqual(dayOfSeed(days, 7));
  expect(dayOfSeed(days, 7)).not.toEqual(dayOfSeed(days, 8));
});

test('a day that fails by two of its events is shortened to these two', () => {
  expect(failing.length).toBeGreaterThan(10);
  for (const seed of failing.slice(0, 10)) {
    const shortest = shrinkSeed(days, seed, fails);
    expect(fails(shortest)).toBe(true);
    expect(shortest.events.map((event) => event.do).sort()).toEqual(['cut', 'run']);
    expect(shortest.tools.length + shortest.workers.length).toBeLessThanOrEqual(3);
    // fast-check brings the number near its bound, too.
    expect(shortest.events).toContainEqual(expect.objectContaining({ do: 'run', forMs: 10_001 }));
  }
});

test('what does not fail cannot be shortened, and what fails whatever is in it is shortened to nothing', () => {
  expect(() => shrinkSeed(days, 7, () => false)).toThrow('does not fail');
  expect(shorten(dayOfSeed(days, 7), () => true).events).toEqual([]);
});

test('a shortened day reads back from its scenario file', () => {
  for (const seed of failing.slice(0, 5)) {
    const shortest = shrinkSeed(days, seed, fails);
    expect(readRun(writeScenario(shortest, { title: 'A short day' })).day).toEqual(shortest);
  }
});

test('every feature is in many days, and has days without most of the others', () => {
  const drawn = Array.from({ length: 200 }, (_, seed) => dayOfSeed(days, seed));
  const with_ = (verb: string) => drawn.filter((day) => has(day, verb)).length;
  for (const verb of ['cut', 'cell', 'exchange', 'clock', 'flash', 'attack', 'air', 'sensor', 'leave', 'set']) {
    expect(with_(verb), verb).toBeGreaterThan(40);
  }
  expect(drawn.some((day) => !has(day, 'cut') && !has(day, 'attack') && !has(day, 'air'))).toBe(true);
  expect(FEATURES.length).toBe(20);
});
