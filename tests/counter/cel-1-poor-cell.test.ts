// CEL-1 at the counter: below the safe voltage no flash operation starts, so nothing is counted or sent; it looks at its cell again
// at growing intervals, and wakes once the voltage holds.
import { beforeEach, expect, test } from 'vitest';
import { SAFE_MV } from '../../src/port/cell.js';
import { CounterRig, REST_MM, WORK_MM } from '../rig/counter-rig.js';
import { newCrew, SAW_SECOND } from '../rig/crew.js';
import { HOUR, MINUTE } from '../rig/day.js';
import { FULL_MV, POOR_MV } from '../rig/device-rig.js';
import { pairUp } from '../rig/pair-up.js';

let { site, saw, edda } = newCrew();
beforeEach(() => {
  ({ site, saw, edda } = newCrew());
  pairUp(saw, edda);
});

test('below the safe voltage it sleeps: the screen says so, and no icon is lit', () => {
  saw.cell(SAFE_MV);
  expect(saw.display).toMatchObject({ screen: 'ready', icons: ['cell'] });
  saw.cell(SAFE_MV - 1);
  expect(saw.display).toMatchObject({ screen: 'asleep', value: -1, second: -1, icons: [] });
  expect(saw.states.get('power')).toBe('waiting');
});

test('asleep it writes nothing, sends nothing, counts nothing and takes no notice of anything', () => {
  saw.cell(POOR_MV);
  const [steps, sent] = [saw.flash.steps, site.frames.length];
  const before = saw.observe();
  saw.work(20_000);
  saw.hold();
  saw.push();
  saw.touch(12);
  saw.readout();
  saw.hear(edda.sentBytes('ack').at(-1)!);
  site.runFor(600_000);
  expect(saw.flash.steps).toBe(steps);
  expect(site.frames.slice(sent).filter(({ from }) => from === saw.id)).toEqual([]);
  expect(saw.records).toEqual([]);
  expect(saw.refused).toEqual([]);
  expect(saw.observe()).toEqual(before);
  expect(saw.display.screen).toBe('asleep');
});

test('it looks again after 1, 2, 4 … 64 s, and wakes at the first look at which the voltage holds', () => {
  for (const [betterMs, wakesMs] of [
    [0, 1_000],
    [999, 1_000],
    [1_000, 3_000],
    [3_500, 7_000],
    [63_500, 127_000],
    [200_000, 255_000],
  ] as const) {
    const drill = new CounterRig(site, 2, 50);
    const sinceMs = site.nowMs;
    drill.cell(POOR_MV);
    site.runFor(betterMs);
    drill.cell(FULL_MV);
    site.runTo(sinceMs + wakesMs - 1);
    expect(drill.display.screen).toBe('asleep');
    site.runFor(1);
    expect(drill.display).toMatchObject({ screen: 'ready', value: 50, icons: [] });
  }
});

test('a cell that is back just above the safe voltage does not wake it: it would fall asleep again at once', () => {
  saw.cell(POOR_MV);
  saw.cell(SAFE_MV + 99);
  site.runFor(300_000);
  expect(saw.display.screen).toBe('asleep');
  saw.cell(SAFE_MV + 100);
  site.runFor(64_000);
  expect(saw.display.screen).toBe('ready');
});

test('each time that it falls asleep it begins with the short interval', () => {
  saw.cell(POOR_MV);
  site.runFor(300_000);
  saw.cell(FULL_MV);
  site.runFor(64_000);
  saw.cell(POOR_MV);
  saw.cell(FULL_MV);
  site.runFor(1_000);
  expect(saw.display.screen).toBe('ready');
});

test('what was counted before is kept when it wakes, and the session goes on', () => {
  saw.level(WORK_MM);
  site.runFor(8_000);
  saw.cell(POOR_MV);
  site.runFor(10_000);
  expect(saw.kept.get(1)!.triggerWindows).toBe(52);
  saw.level(REST_MM);
  saw.cell(FULL_MV);
  site.runFor(64_000);
  expect(saw.kept.get(1)!.triggerWindows).toBe(80);
  saw.work(5_000);
  expect(saw.observe()).toMatchObject({ session: 1, triggerWindows: 130 });
  expect(edda.dose).toBe(13 * SAW_SECOND);
});

test('a tool that still runs when it wakes has started anew', () => {
  saw.level(WORK_MM);
  site.runFor(8_000);
  saw.cell(POOR_MV);
  site.runFor(500);
  saw.cell(FULL_MV);
  site.runFor(500);
  const wokeMs = site.nowMs;
  expect(saw.display.screen).toBe('ready');
  site.runTo(wokeMs + 2_000);
  expect(saw.display.icons).toContain('running');
  expect(saw.observe().triggerWindows).toBe(80 + 20);
});

test('nothing that is done to it in its sleep has happened when it wakes', () => {
  saw.cell(POOR_MV);
  saw.readout();
  expect(saw.records).toEqual([]);
  saw.hold();
  saw.turn(3);
  saw.cell(FULL_MV);
  site.runFor(1_000);
  expect(saw.display).toMatchObject({ screen: 'ready', value: 50 });
  saw.cell(POOR_MV);
  saw.touch(12);
  saw.cell(FULL_MV);
  site.runFor(1_000);
  expect(saw.display.screen).toBe('ready');
});

test('a tool that still runs when it wakes is seen to start, and told of every 5 s', () => {
  saw.level(WORK_MM);
  site.runFor(8_000);
  saw.cell(POOR_MV);
  saw.cell(FULL_MV);
  site.runFor(1_000);
  expect(saw.display.screen).toBe('ready');
  expect(saw.display.icons).not.toContain('running');
  expect(saw.states.get('trigger')).toBe('stopped');
  const told = saw.sent('tally').length;
  site.runFor(200);
  expect(saw.states.get('trigger')).toBe('running');
  site.runFor(15_000);
  expect(saw.sent('tally')).toHaveLength(told + 3);
});

test('PAI-6: a session that ends in its sleep is kept and told once it is awake', () => {
  saw.work(5_000);
  saw.cell(POOR_MV);
  const steps = saw.flash.steps;
  site.runFor(7 * HOUR);
  expect(saw.observe().session).toBe(0);
  expect(saw.flash.steps).toBe(steps);
  saw.cell(FULL_MV);
  site.runFor(3 * MINUTE);
  expect(saw.sessions).toEqual(['opened 1', 'sealed 1', 'delivered 1']);
  expect(edda.dose).toBe(5 * SAW_SECOND);
});

test('a start on a poor cell writes nothing; once awake it goes on with what it had, and the loss is counted', () => {
  saw.work(10_000);
  saw.cutPower();
  const steps = saw.flash.steps;
  saw.powerUp(POOR_MV);
  expect(saw.display.screen).toBe('asleep');
  site.runFor(500_000);
  expect(saw.flash.steps).toBe(steps);
  saw.cell(FULL_MV);
  site.runFor(64_000);
  expect(saw.display.screen).toBe('ready');
  expect(saw.observe()).toMatchObject({ session: 1, triggerWindows: 100 });
  expect(saw.sent('report').at(-1)).toMatchObject({ powerLosses: 1 });
  saw.work(5_000);
  expect(edda.dose).toBe(15 * SAW_SECOND);
});

test('power that fails while it sleeps finds nothing half written', () => {
  saw.level(WORK_MM);
  site.runFor(9_000);
  saw.cell(POOR_MV);
  saw.cutPower();
  saw.powerUp();
  expect(saw.recovered.at(-1)).toMatchObject({ torn: 0 });
  expect(saw.observe().triggerWindows).toBe(52);
});

test('TAL-1: the level of the cell is in the tally', () => {
  for (const [millivolts, level] of [
    [FULL_MV, 3],
    [2_700, 2],
    [2_500, 1],
  ] as const) {
    saw.cell(millivolts);
    saw.work(1_000);
    expect(saw.sent('tally').at(-1)!.cell).toBe(level);
    expect(saw.display.icons.includes('cell')).toBe(level < 2);
  }
});
