// MAG-4, MAG-5, MAG-6: when a magnitude changes, what is counted at it, and what is counted without one.
import { beforeEach, expect, test } from 'vitest';
import { CounterRig, REST_MM, WORK_MM } from '../rig/counter-rig.js';
import { Site } from '../rig/site.js';

let site: Site;
beforeEach(() => {
  site = new Site();
});

function counterKeyed(tenths: number): CounterRig {
  return new CounterRig(site, 1, tenths);
}

function shows(counter: CounterRig) {
  const { screen, value, second } = counter.display;
  return { screen, value, second };
}

/** Opens setting, turns and commits. */
function commit(counter: CounterRig, detents: number): void {
  counter.hold();
  counter.turn(detents);
  counter.push();
  counter.push();
}

test.each(['setting', 'review'])('MAG-4: a start in %s discards it', (screen) => {
  const counter = counterKeyed(60);
  counter.hold();
  counter.turn(2);
  if (screen === 'review') counter.push();
  expect(counter.display.screen).toBe(screen);
  counter.level(WORK_MM);
  site.runFor(199);
  expect(counter.display.screen).toBe(screen);
  site.runFor(1);
  expect(shows(counter)).toEqual({ screen: 'ready', value: 60, second: -1 });
  counter.push();
  counter.push();
  expect(counter.observe().magnitudeTenths).toBe(60);
  counter.work(2000);
  expect(counter.observe()).toMatchObject({ magnitudeTenths: 60, dose: 22 * 100 * 3600 });
});

test('MAG-4: a burst too short to confirm is no start', () => {
  const counter = counterKeyed(60);
  counter.hold();
  counter.turn(2);
  counter.windows(WORK_MM, REST_MM, REST_MM);
  expect(shows(counter)).toEqual({ screen: 'setting', value: 62, second: -1 });
});

test('MAG-5: a change touches nothing counted', () => {
  const counter = counterKeyed(60);
  counter.work(1000);
  expect(counter.observe().dose).toBe(10 * 100 * 3600);
  commit(counter, 8);
  expect(counter.observe().dose).toBe(10 * 100 * 3600);
  counter.work(1000);
  expect(counter.observe().dose).toBe(10 * 100 * 3600 + 10 * 100 * 68 * 68);
});

test('MAG-5: the window in which the change falls is counted as it began, the next one at the new magnitude', () => {
  const counter = counterKeyed(60);
  counter.hold();
  counter.turn(4);
  counter.push();
  counter.windows(REST_MM);
  counter.level(WORK_MM);
  site.runFor(150);
  // One window of the run has ended, the second is half gathered: both began at 6.0 m/s².
  counter.push();
  site.runFor(150);
  counter.level(REST_MM);
  site.runFor(1000);
  expect(counter.observe()).toMatchObject({ triggerWindows: 3, dose: 100 * (2 * 3600 + 64 * 64) });
});

test('MAG-5: a window that begins with the very change is counted at the new magnitude', () => {
  const counter = counterKeyed(60);
  counter.hold();
  counter.turn(4);
  counter.push();
  counter.level(WORK_MM);
  site.runFor(100);
  counter.push();
  site.runFor(200);
  counter.level(REST_MM);
  site.runFor(1000);
  expect(counter.observe()).toMatchObject({ triggerWindows: 3, dose: 100 * (3600 + 2 * 64 * 64) });
});

test('MAG-6: without a magnitude trigger time is counted as unrated, shown as such, and makes no dose', () => {
  const counter = counterKeyed(0);
  expect(counter.display).toMatchObject({ screen: 'ready', value: -1, icons: ['unrated'] });
  counter.work(3000);
  expect(counter.observe()).toMatchObject({ triggerWindows: 30, unratedWindows: 30, dose: 0 });
  commit(counter, 1);
  expect(counter.display).toMatchObject({ value: 50, icons: ['unclaimed', 'unrated'] });
  counter.work(1000);
  expect(counter.observe()).toMatchObject({ triggerWindows: 40, unratedWindows: 30, dose: 10 * 100 * 2500 });
});
