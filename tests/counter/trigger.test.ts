// TRG-1 to TRG-5 and ACC-1 at the whole counter: what is counted, when, and what is shown of it.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { SensorState } from '../../src/port/port.js';
import { CounterRig, REST_MM, WORK_MM } from '../rig/counter-rig.js';
import { Site } from '../rig/site.js';

/** Between the off level and the on level. */
const BETWEEN_MM = 800;

function counterAt(tenths: number): CounterRig {
  return new CounterRig(new Site(), 1, tenths);
}

test('TRG-1: running is shown with the second window at the on level', () => {
  const counter = counterAt(100);
  counter.level(1000);
  counter.site.runFor(199);
  expect(counter.display.icons).not.toContain('running');
  counter.site.runFor(1);
  expect(counter.display).toMatchObject({ atMs: 200, icons: ['running', 'unclaimed'] });
});

test('TRG-1: stopped is shown with the fifth window below the off level', () => {
  const counter = counterAt(100);
  counter.windows(WORK_MM, WORK_MM, WORK_MM);
  counter.level(599);
  counter.site.runFor(499);
  expect(counter.display.icons).toContain('running');
  counter.site.runFor(1);
  expect(counter.display).toMatchObject({ atMs: 800, icons: ['unclaimed'] });
});

test('TRG-2: a run of windows that stops is counted to its last window at or above the off level', () => {
  const counter = counterAt(100);
  counter.windows(WORK_MM, WORK_MM, 600, 599, 599, 599, 599, 600, 599, 599, 599, 599, 599);
  expect(counter.observe().triggerWindows).toBe(8);
  counter.site.runFor(5000);
  expect(counter.observe().triggerWindows).toBe(8);
});

test('TRG-2: what is withheld is not counted before a later window reaches the off level', () => {
  const counter = counterAt(100);
  counter.windows(WORK_MM, WORK_MM, REST_MM, REST_MM, REST_MM, REST_MM);
  expect(counter.observe().triggerWindows).toBe(2);
  counter.windows(BETWEEN_MM);
  expect(counter.observe().triggerWindows).toBe(7);
});

test('TRG-3: a burst of one window is counted as a short burst and makes no trigger time', () => {
  const counter = counterAt(100);
  counter.windows(WORK_MM, BETWEEN_MM, WORK_MM, REST_MM);
  expect(counter.observe()).toMatchObject({ shortBursts: 2, triggerWindows: 0, dose: 0 });
});

test('ACC-1: a run of hours is exact, however the level moves above the off level', () => {
  const counter = counterAt(37);
  counter.windows(1000, 1000);
  for (let hour = 0; hour < 4; hour++) {
    counter.level(hour % 2 === 0 ? WORK_MM : 600);
    counter.site.runFor(3_600_000);
  }
  expect(counter.observe()).toMatchObject({ triggerWindows: 144_002, dose: 37 * 37 * 100 * 144_002 });
});

const SENSOR_FAULTS: readonly SensorState[] = ['silent', 'frozen', 'clipped'];

test.each(SENSOR_FAULTS)(
  'TRG-5: a %s sensor is shown as a fault within 1 s, and no longer once it is good',
  (fault) => {
    const counter = counterAt(100);
    counter.sensor(fault);
    counter.site.runFor(1000);
    expect(counter.display.icons).toContain('sensor');
    expect(counter.states.get('sensor')).toBe('faulty');
    counter.sensor('good');
    counter.site.runFor(1000);
    expect(counter.display.icons).not.toContain('sensor');
    expect(counter.states.get('sensor')).toBe('good');
  },
);

test('TRG-5: clipped counts as running', () => {
  const counter = counterAt(100);
  counter.sensor('clipped');
  counter.site.runFor(3000);
  counter.sensor('good');
  counter.site.runFor(1000);
  expect(counter.observe().triggerWindows).toBe(30);
});

test.each(SENSOR_FAULTS.slice(0, 2))('TRG-5: a %s sensor counts nothing, whatever it reads', (fault) => {
  const counter = counterAt(100);
  counter.level(WORK_MM);
  counter.sensor(fault);
  counter.site.runFor(3000);
  expect(counter.observe().triggerWindows).toBe(0);
});

/** Windows of one level each, with what the counter makes of them when it is woken as it asks to be. */
const someWindows = fc.array(fc.constantFrom(0, 599, 600, 999, 1000, WORK_MM), { maxLength: 50 });

test('waking the counter every 10 ms changes nothing against waking it only when it asks', () => {
  fc.assert(
    fc.property(someWindows, (levels) => {
      const lazy = counterAt(77);
      lazy.windows(...levels);
      const eager = counterAt(77);
      for (const levelMm of levels) {
        eager.level(levelMm);
        for (let ms = 0; ms < 100; ms += 10) eager.site.runFor(10);
      }
      expect(eager.observe()).toEqual(lazy.observe());
      expect(eager.shown).toEqual(lazy.shown);
    }),
    { numRuns: 50 },
  );
});

test('ACC-2: whatever the windows, no sum of the counter ever falls', () => {
  fc.assert(
    fc.property(someWindows, (levels) => {
      const counter = counterAt(77);
      let before = counter.observe();
      for (const levelMm of levels) {
        counter.windows(levelMm);
        const after = counter.observe();
        expect(after.dose).toBeGreaterThanOrEqual(before.dose);
        expect(after.triggerWindows).toBeGreaterThanOrEqual(before.triggerWindows);
        expect(after.shortBursts).toBeGreaterThanOrEqual(before.shortBursts);
        before = after;
      }
    }),
    { numRuns: 100 },
  );
});
