// TAL-5: what the counter makes of acknowledgements.
import { beforeEach, expect, test } from 'vitest';
import { CounterRig } from '../rig/counter-rig.js';
import { newCrew } from '../rig/crew.js';
import { MINUTE } from '../rig/day.js';
import { pairUp } from '../rig/pair-up.js';
import { ToldWearable } from '../rig/told-wearable.js';

let { site, saw, edda, bram } = newCrew();
/** Her wearable says what a test makes it say. */
let carla: ToldWearable;
beforeEach(() => {
  ({ site, saw, edda, bram } = newCrew());
  carla = new ToldWearable(saw, 13);
});

test('TAL-5: the counter shows the level, and the minutes left at its magnitude', () => {
  carla.pair();
  // 5.0 m/s² make 50 points an hour, 5 in 6 min: 30 points are 36 min, one tenth less is less than that.
  carla.acknowledge('notice', 300);
  expect(saw.display).toMatchObject({ screen: 'ready', value: 50, second: 36, icons: ['level-notice'] });
  carla.acknowledge('notice', 299);
  expect(saw.display.second).toBe(35);
});

test('TAL-5: past the last level no minutes are left, which is not blank', () => {
  carla.pair();
  carla.acknowledge('limit', 0);
  expect(saw.display).toMatchObject({ second: 0, icons: ['level-limit'] });
});

test('TAL-5: level and minutes are blank after 90 s without an acknowledgement', () => {
  carla.pair();
  carla.acknowledge('action', 300);
  site.runFor(89_999);
  expect(saw.display).toMatchObject({ second: 36, icons: ['level-action'] });
  site.runFor(1);
  expect(saw.display).toMatchObject({ second: -1, icons: [] });
});

test('TAL-5: while acknowledgements come, nothing is blank', () => {
  pairUp(saw, edda);
  site.runFor(10 * MINUTE);
  expect(saw.shown.filter(({ atMs, second }) => atMs > 2_000 && second === -1)).toEqual([]);
  expect(saw.display.second).toBe(96);
});

test('TAL-5: an acknowledgement carries the highest sequence seen, the level and the points left to the next', () => {
  pairUp(saw, edda);
  saw.work(60_000);
  expect(edda.sent('ack').at(-1)).toMatchObject({
    highest: saw.sent('tally').at(-1)!.sequence,
    level: 0,
    // A minute at 5.0 m/s² makes 2 · 25 / 60 = 0.83 points; 79.17 are left of 80.
    leftTenths: 791,
    closed: false,
  });
});

test('TAL-5: without a magnitude no minutes are shown', () => {
  const drill = new CounterRig(site, 2, 0);
  pairUp(drill, edda);
  expect(drill.display).toMatchObject({ value: -1, second: -1 });
});

test('a session of another wearer begins with a blank', () => {
  carla.pair();
  carla.acknowledge('action', 300);
  site.air = ({ message }) => (message.frame === 'ack' ? [] : [5]);
  pairUp(saw, bram);
  expect(saw.display).toMatchObject({ second: -1, icons: [] });
});
