// CEL-1 at the wearable: below the safe voltage no flash operation starts, so nothing is taken in; it looks at its cell again at
// growing intervals, and wakes once the voltage holds.
import { beforeEach, expect, test } from 'vitest';
import { SAFE_MV } from '../../src/port/cell.js';
import { FULL_MV, POOR_MV } from '../rig/device-rig.js';
import { POINT } from '../rig/levels.js';
import { Site } from '../rig/site.js';
import { type ToldSession, toldSession } from '../rig/told-session.js';
import { WearableRig } from '../rig/wearable-rig.js';

let site: Site;
let edda: WearableRig;
let saw: ToldSession;
beforeEach(() => {
  site = new Site();
  edda = new WearableRig(site, 11);
  saw = toldSession(edda);
  saw.tell({ dose: 3 * POINT });
});

test('below the safe voltage it sleeps: the screen says so, and no icon is lit', () => {
  edda.cell(SAFE_MV);
  expect(edda.display).toMatchObject({ screen: 'points', icons: ['cell'] });
  edda.cell(SAFE_MV - 1);
  expect(edda.display).toMatchObject({ screen: 'asleep', value: -1, icons: [] });
  expect(edda.states.get('power')).toBe('waiting');
});

test('asleep it writes nothing, sends nothing and takes no notice of anything', () => {
  edda.cell(POOR_MV);
  const [steps, sent] = [edda.flash.steps, site.frames.length];
  saw.tell({ dose: 4 * POINT });
  saw.report(9);
  edda.tap();
  edda.touch(2);
  edda.close();
  edda.readout();
  site.runFor(600_000);
  expect(edda.flash.steps).toBe(steps);
  expect(site.frames).toHaveLength(sent);
  expect(edda.records).toEqual([]);
  expect(edda.dose).toBe(3 * POINT);
  expect(edda.shifts.map(({ what }) => what)).toEqual(['opened 1']);
  expect(edda.display.screen).toBe('asleep');
});

test('WEA-2: asleep it calls for nobody; awake it goes on with the alert that nobody has acknowledged', () => {
  saw.tell({ dose: 90 * POINT });
  edda.cell(POOR_MV);
  const calls = edda.alerts.length;
  site.runFor(300_000);
  edda.cutPower();
  edda.powerUp(POOR_MV);
  site.runFor(300_000);
  expect(edda.alerts).toHaveLength(calls);
  edda.cell(FULL_MV);
  site.runFor(64_000 + 30_000);
  expect(edda.alerts.length).toBeGreaterThan(calls);
  expect(edda.alerts.at(-1)).toMatchObject({ level: 'notice' });
});

test('it looks again after 1, 2, 4 … s, and wakes at the first look at which the voltage holds', () => {
  const sinceMs = site.nowMs;
  edda.cell(POOR_MV);
  site.runFor(3_500);
  edda.cell(SAFE_MV + 99);
  site.runTo(sinceMs + 7_000);
  expect(edda.display.screen).toBe('asleep');
  edda.cell(SAFE_MV + 100);
  site.runTo(sinceMs + 14_999);
  expect(edda.display.screen).toBe('asleep');
  site.runFor(1);
  expect(edda.display).toMatchObject({ screen: 'points', value: 3 });
});

test('awake it takes in what its counters tell again, also what they told while it slept', () => {
  edda.cell(POOR_MV);
  const slept = saw.tell({ dose: 4 * POINT });
  edda.cell(FULL_MV);
  site.runFor(64_000);
  saw.hear(slept);
  expect(edda.dose).toBe(4 * POINT);
  expect(edda.refused).toEqual([]);
});

test('a start on a poor cell writes nothing and forgets nothing', () => {
  edda.cutPower();
  const steps = edda.flash.steps;
  edda.powerUp(POOR_MV);
  expect(edda.display.screen).toBe('asleep');
  site.runFor(100_000);
  expect(edda.flash.steps).toBe(steps);
  edda.cell(FULL_MV);
  site.runFor(64_000);
  expect(edda.display).toMatchObject({ screen: 'points', value: 3 });
  saw.tell({ dose: 5 * POINT });
  expect(edda.dose).toBe(5 * POINT);
});

test('a shift that ends while it sleeps has ended in the journal too, once it is awake', () => {
  edda.cell(POOR_MV);
  const steps = edda.flash.steps;
  site.runFor(6 * 3_600_000);
  expect(edda.flash.steps).toBe(steps);
  edda.cell(FULL_MV);
  site.runFor(64_000);
  expect(edda.display.screen).toBe('closed');
  edda.cutPower();
  edda.powerUp();
  expect(edda.display.screen).toBe('closed');
});
