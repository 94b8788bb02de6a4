// MAG-2: which press of the ring is a push and which opens setting, to the millisecond.
import { expect, test } from 'vitest';
import { RING_PRESSES } from '../../src/counter/panel.js';
import { inputOf } from '../../src/port/gesture.js';

test('a press of less than 2 s is a push, made on the release', () => {
  expect(inputOf(RING_PRESSES, 1)).toEqual({ input: 'push', afterMs: 1 });
  expect(inputOf(RING_PRESSES, 1999)).toEqual({ input: 'push', afterMs: 1999 });
});

test('a press of 2 s opens setting while it lasts, and its release does nothing more', () => {
  expect(inputOf(RING_PRESSES, 2000)).toEqual({ input: 'hold', afterMs: 2000 });
  expect(inputOf(RING_PRESSES, 60_000)).toEqual({ input: 'hold', afterMs: 2000 });
});

test('the table has one row for every press', () => {
  const rowsFor = (forMs: number) => RING_PRESSES.filter((row) => forMs >= row.fromMs && forMs < row.belowMs).length;
  const presses = Array.from({ length: 5000 }, (_, forMs) => forMs);
  expect(presses.filter((forMs) => rowsFor(forMs) !== 1)).toEqual([]);
  expect(() => inputOf(RING_PRESSES, -1)).toThrow('nothing can be pressed');
});
