// MAG-1, MAG-2, MAG-3: what the ring's detents make of the value shown.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { pointsInTenMinutes, type Setting, turnRing } from '../../src/counter/setting.js';

/** The value after detents made at these times; the sign is the direction. */
function turned(fromTenths: number, ...detents: readonly (readonly [atMs: number, detents: number])[]): number {
  const setting: Setting = { tenths: fromTenths, recentMs: [] };
  for (const [atMs, count] of detents) turnRing(setting, count, atMs);
  return setting.tenths;
}

/** count detents, one every everyMs, the first at 0. */
function spread(fromTenths: number, count: number, everyMs: number): number {
  const sign = Math.sign(count);
  return turned(fromTenths, ...Array.from({ length: Math.abs(count) }, (_, made) => [made * everyMs, sign] as const));
}

test('MAG-2: a detent is 0.1', () => {
  expect(turned(52, [0, 1])).toBe(53);
  expect(turned(52, [0, -1])).toBe(51);
});

test('MAG-2: eight detents within a second are 0.1 each, the ninth goes to the next multiple of 0.5', () => {
  expect(spread(51, 8, 10)).toBe(59);
  expect(spread(51, 9, 10)).toBe(60);
  expect(spread(51, 10, 10)).toBe(65);
  expect(spread(59, -8, 10)).toBe(51);
  expect(spread(59, -9, 10)).toBe(50);
  expect(spread(59, -10, 10)).toBe(45);
});

test('MAG-2: the second is one second to the millisecond', () => {
  const nine = (lastMs: number) => turned(100, [0, 1], [500, 7], [lastMs, 1]);
  expect(nine(999)).toBe(110);
  expect(nine(1000)).toBe(109);
});

test('MAG-2: nine detents spread over more than a second stay fine, however many there are', () => {
  expect(spread(100, 40, 130)).toBe(140);
  expect(spread(100, 40, 124)).toBeGreaterThan(140);
});

test('MAG-2: detents given at once count as a fast turn', () => {
  expect(turned(51, [0, 10])).toBe(65);
  expect(turned(51, [0, 4], [10, 6])).toBe(65);
});

test('MAG-2: after a pause of a second a detent is fine again', () => {
  expect(turned(51, [0, 10], [1000, 1])).toBe(66);
  expect(turned(51, [0, 10], [999, 1])).toBe(70);
});

test('MAG-2: the ends hold, fine and coarse', () => {
  expect(turned(500, [0, 1])).toBe(500);
  expect(turned(5, [0, -1])).toBe(5);
  expect(spread(489, 12, 10)).toBe(500);
  expect(spread(16, -12, 10)).toBe(5);
});

test('MAG-2: from blank the first detent shows 5.0, whichever way; the rest go on from there', () => {
  expect(turned(0, [0, 1])).toBe(50);
  expect(turned(0, [0, -1])).toBe(50);
  expect(turned(0, [0, 3])).toBe(52);
  expect(turned(0, [0, -3])).toBe(48);
});

test('MAG-1: whatever is turned, the value lies within 0.5 and 50.0', () => {
  const turns = fc.array(
    fc.tuple(
      fc.nat(400),
      fc.integer({ min: -60, max: 60 }).filter((detents) => detents !== 0),
    ),
    {
      minLength: 1,
      maxLength: 20,
    },
  );
  fc.assert(
    fc.property(fc.constantFrom(0, 5, 6, 250, 499, 500), turns, (from, gaps) => {
      let atMs = 0;
      const detents = gaps.map(([gapMs, made]) => {
        atMs += gapMs;
        return [atMs, made] as const;
      });
      const tenths = turned(from, ...detents);
      expect(Number.isInteger(tenths)).toBe(true);
      expect(tenths).toBeGreaterThanOrEqual(5);
      expect(tenths).toBeLessThanOrEqual(500);
    }),
  );
});

test('MAG-2: detents made at once and one after the other at the same moment are the same', () => {
  fc.assert(
    fc.property(fc.integer({ min: 5, max: 500 }), fc.integer({ min: 1, max: 30 }), fc.boolean(), (from, count, up) => {
      const sign = up ? 1 : -1;
      expect(turned(from, [0, sign * count])).toBe(spread(from, sign * count, 0));
    }),
  );
});

test('MAG-3: the points of ten minutes are 2·a²/6, rounded up', () => {
  // UK Health and Safety Executive, ready reckoner (from memory): 6 m/s² make 72 points an hour, 12 in ten minutes.
  expect(pointsInTenMinutes(60)).toBe(12);
  expect(pointsInTenMinutes(61)).toBe(13);
  expect(pointsInTenMinutes(5)).toBe(1);
  expect(pointsInTenMinutes(500)).toBe(834);
  for (let tenths = 5; tenths <= 500; tenths++) {
    const points = BigInt(tenths) ** 2n;
    expect(pointsInTenMinutes(tenths)).toBe(Number((points + 299n) / 300n));
  }
});
