// WEA-2, WEA-3: which touch of the surface is a tap and which closes the shift.
import { expect, test } from 'vitest';
import { inputOf } from '../../src/port/gesture.js';
import { SURFACE_TOUCHES } from '../../src/wearable/surface.js';

test('a touch of less than 3 s is a tap, made on the release', () => {
  expect(inputOf(SURFACE_TOUCHES, 1)).toEqual({ input: 'tap', afterMs: 1 });
  expect(inputOf(SURFACE_TOUCHES, 2999)).toEqual({ input: 'tap', afterMs: 2999 });
});

test('a touch of 3 s closes the shift while it lasts', () => {
  expect(inputOf(SURFACE_TOUCHES, 3000)).toEqual({ input: 'close', afterMs: 3000 });
  expect(inputOf(SURFACE_TOUCHES, 60_000)).toEqual({ input: 'close', afterMs: 3000 });
});

test('the table has one row for every touch', () => {
  const rowsFor = (forMs: number) => SURFACE_TOUCHES.filter((row) => forMs >= row.fromMs && forMs < row.belowMs).length;
  const touches = Array.from({ length: 5000 }, (_, forMs) => forMs);
  expect(touches.filter((forMs) => rowsFor(forMs) !== 1)).toEqual([]);
  expect(() => inputOf(SURFACE_TOUCHES, -1)).toThrow('nothing can be pressed');
});
