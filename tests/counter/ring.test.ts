// MAG-1, MAG-2, MAG-3 as a person at the ring sees them: setting, reviewing, committing.
import { beforeEach, expect, test } from 'vitest';
import { CounterRig, WORK_MM } from '../rig/counter-rig.js';
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

test('MAG-2: held, the ring opens setting with the committed value', () => {
  const counter = counterKeyed(123);
  counter.hold();
  expect(shows(counter)).toEqual({ screen: 'setting', value: 123, second: -1 });
});

test('MAG-2: without a committed value setting is blank, and blank cannot be reviewed', () => {
  const counter = counterKeyed(0);
  counter.hold();
  expect(shows(counter)).toEqual({ screen: 'setting', value: -1, second: -1 });
  counter.push();
  expect(counter.display.screen).toBe('setting');
  counter.turn(-1);
  expect(counter.display.value).toBe(50);
  counter.push();
  expect(counter.display.screen).toBe('review');
});

test('MAG-2: setting opens only when the tool is stopped; a push or a turn opens nothing', () => {
  const counter = counterKeyed(50);
  counter.push();
  counter.turn(1);
  expect(counter.display.screen).toBe('ready');
  counter.level(WORK_MM);
  site.runFor(200);
  counter.hold();
  expect(counter.display.screen).toBe('refused-running');
  counter.turn(1);
  counter.push();
  counter.push();
  site.runFor(5000);
  expect(counter.display).toMatchObject({ screen: 'ready', value: 50 });
});

test('MAG-2: the ninth detent within a second is a coarse one; after a second in which it rests they are fine again', () => {
  const counter = counterKeyed(100);
  counter.hold();
  for (let made = 0; made < 8; made++) {
    counter.turn(1);
    site.runFor(100);
  }
  expect(counter.display.value).toBe(108);
  counter.turn(1);
  expect(counter.display.value).toBe(110);
  site.runFor(1000);
  counter.turn(1);
  expect(counter.display.value).toBe(111);
});

test('MAG-2: detents of an earlier setting do not make the first ones of the next coarse', () => {
  const counter = counterKeyed(100);
  commit(counter, 8);
  counter.hold();
  counter.turn(1);
  expect(counter.display.value).toBe(109);
});

test('MAG-1: the ends hold at the ring', () => {
  const counter = counterKeyed(495);
  counter.hold();
  counter.turn(30);
  expect(counter.display.value).toBe(500);
  counter.turn(-200);
  expect(counter.display.value).toBe(5);
});

test('MAG-3: a push opens the review: the magnitude, and the points it makes in ten minutes', () => {
  const counter = counterKeyed(60);
  counter.hold();
  counter.turn(1);
  counter.push();
  // 2 · 6.1² / 6 = 12.4, rounded up.
  expect(shows(counter)).toEqual({ screen: 'review', value: 61, second: 13 });
});

test('MAG-3: a second push commits, and only then', () => {
  const counter = counterKeyed(60);
  counter.hold();
  counter.turn(2);
  counter.push();
  expect(counter.observe().magnitudeTenths).toBe(60);
  counter.push();
  expect(counter.observe().magnitudeTenths).toBe(62);
  expect(shows(counter)).toEqual({ screen: 'ready', value: 62, second: -1 });
  expect(counter.magnitudes).toEqual([60, 62]);
});

test('MAG-3: a turn goes back, with the value as it was shown', () => {
  const counter = counterKeyed(60);
  counter.hold();
  counter.turn(2);
  counter.push();
  counter.turn(1);
  expect(shows(counter)).toEqual({ screen: 'setting', value: 62, second: -1 });
  counter.turn(1);
  counter.push();
  counter.push();
  expect(counter.observe().magnitudeTenths).toBe(63);
});

test('MAG-3: a push within 10 s commits; at 10 s silence has discarded', () => {
  for (const [waitMs, committed] of [
    [9_999, 62],
    [10_000, 60],
  ] as const) {
    site = new Site();
    const counter = counterKeyed(60);
    counter.hold();
    counter.turn(2);
    counter.push();
    site.runFor(waitMs);
    counter.push();
    expect(counter.observe().magnitudeTenths).toBe(committed);
    expect(shows(counter)).toEqual({ screen: 'ready', value: committed, second: -1 });
  }
});

test('MAG-3: going back to the review starts its 10 s again', () => {
  const counter = counterKeyed(60);
  counter.hold();
  counter.turn(2);
  counter.push();
  site.runFor(9_000);
  counter.turn(1);
  counter.push();
  site.runFor(9_000);
  counter.push();
  expect(counter.observe().magnitudeTenths).toBe(62);
});

test('silence in setting discards it too', () => {
  const counter = counterKeyed(60);
  counter.hold();
  counter.turn(2);
  site.runFor(29_999);
  expect(counter.display.screen).toBe('setting');
  site.runFor(1);
  expect(shows(counter)).toEqual({ screen: 'ready', value: 60, second: -1 });
  counter.push();
  counter.push();
  expect(counter.observe().magnitudeTenths).toBe(60);
});

test('every turn begins the silence of setting anew', () => {
  const counter = counterKeyed(60);
  counter.hold();
  site.runFor(29_000);
  counter.turn(2);
  site.runFor(29_000);
  expect(counter.display).toMatchObject({ screen: 'setting', value: 62 });
  site.runFor(1_000);
  expect(counter.display.screen).toBe('ready');
});
