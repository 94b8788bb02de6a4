// TRG-5: a silent, frozen or clipped sensor is a fault within a second; clipped counts as running.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { believedLevelMm, type SensorWatch, sensorWindowsToDecision, watchSensor } from '../../src/counter/sensor.js';
import { SENSOR_STATES, type SensorState } from '../../src/port/port.js';
import { expectSameHoweverCut, type Run } from '../laws/splitting.js';

/** Verdict after every window. */
function verdicts(runs: readonly Run<SensorState>[]): { watch: SensorWatch; changes: number[] } {
  const watch = { faulty: false, against: 0 };
  const changes: number[] = [];
  let window = 0;
  for (const { item, length } of runs) {
    for (let left = length; left > 0; ) {
      const windows = Math.min(left, sensorWindowsToDecision(watch, item));
      window += windows;
      left -= windows;
      if (watchSensor(watch, item, windows)) changes.push(window);
    }
  }
  return { watch, changes };
}

test.each(SENSOR_STATES.filter((state) => state !== 'good'))('a %s sensor is a fault within 10 windows', (item) => {
  expect(verdicts([{ item, length: 10 }]).watch.faulty).toBe(true);
});

test('a window or four of it are no fault, and good ones between them start the count again', () => {
  const bad: Run<SensorState> = { item: 'silent', length: 4 };
  const good: Run<SensorState> = { item: 'good', length: 1 };
  expect(verdicts([bad, good, bad, good, bad]).changes).toEqual([]);
});

test('one kind of fault after the other is one fault', () => {
  const runs: Run<SensorState>[] = [
    { item: 'silent', length: 3 },
    { item: 'frozen', length: 2 },
    { item: 'clipped', length: 5 },
  ];
  expect(verdicts(runs).changes).toEqual([5]);
});

test('it is good again after it was good for a while', () => {
  const runs: Run<SensorState>[] = [
    { item: 'clipped', length: 20 },
    { item: 'good', length: 5 },
  ];
  expect(verdicts(runs)).toEqual({ watch: { faulty: false, against: 0 }, changes: [5, 25] });
});

test('however a run of windows is cut, the verdicts are the same', () => {
  expectSameHoweverCut(fc.constantFrom(...SENSOR_STATES), 7, verdicts);
});

test('clipped reads as running whatever the level, silent and frozen as rest', () => {
  expect(believedLevelMm(0, 'clipped')).toBeGreaterThanOrEqual(1000);
  expect(believedLevelMm(65_000, 'silent')).toBeLessThan(600);
  expect(believedLevelMm(65_000, 'frozen')).toBeLessThan(600);
  expect(believedLevelMm(1234, 'good')).toBe(1234);
});
