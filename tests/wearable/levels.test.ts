// ACC-3, WEA-2, TAL-5: levels compare the exact dose, as the regime says, and tell what is left to the next.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { hasPassed } from '../../src/exposure/regimes.js';
import { inRisingOrder, type Level, leastDose, tenthsLeft } from '../../src/wearable/levels.js';
import { POINT } from '../rig/levels.js';

const REACHED: Level = { level: 'action', points: 100, compare: 'reached' };
const EXCEEDED: Level = { level: 'action', points: 100, compare: 'exceeded' };

test('reached is passed at the very dose, exceeded by one u more', () => {
  expect(leastDose(REACHED)).toBe(100 * POINT);
  expect(leastDose(EXCEEDED)).toBe(100 * POINT + 1);
});

test('the least dose is where the regime says that the level is passed', () => {
  const near = fc.integer({ min: -2, max: 2 });
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 1000 }),
      near,
      fc.constantFrom('reached', 'exceeded'),
      (points, off, compare) => {
        const dose = points * POINT + off;
        expect(dose >= leastDose({ level: 'site', points, compare })).toBe(hasPassed(dose, points, compare));
      },
    ),
  );
});

test('tenths of a point left are rounded down and never negative', () => {
  expect(tenthsLeft(REACHED, 0)).toBe(1000);
  expect(tenthsLeft(REACHED, 1)).toBe(999);
  expect(tenthsLeft(REACHED, 100 * POINT - POINT / 10)).toBe(1);
  expect(tenthsLeft(REACHED, 100 * POINT - 1)).toBe(0);
  expect(tenthsLeft(EXCEEDED, 100 * POINT)).toBe(0);
  expect(tenthsLeft(REACHED, 500 * POINT)).toBe(0);
});

test('levels stand in the order in which they are passed', () => {
  const limit: Level = { level: 'limit', points: 400, compare: 'exceeded' };
  const site: Level = { level: 'site', points: 100, compare: 'reached' };
  const notice: Level = { level: 'notice', points: 100, compare: 'reached' };
  expect(inRisingOrder([limit, EXCEEDED, site, notice])).toEqual([notice, site, EXCEEDED, limit]);
});
