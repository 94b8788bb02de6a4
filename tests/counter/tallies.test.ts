// TAL-1, MAG-6, TRG-3 as the counter tells them: when it speaks, and what it says.
import { beforeEach, expect, test } from 'vitest';
import { TALLY_FLAGS } from '../../src/link/messages.js';
import { CounterRig, REST_MM, WORK_MM } from '../rig/counter-rig.js';
import { newCrew } from '../rig/crew.js';
import { MINUTE } from '../rig/day.js';
import { pairUp } from '../rig/pair-up.js';

let { site, saw, edda } = newCrew();
beforeEach(() => {
  ({ site, saw, edda } = newCrew());
  pairUp(saw, edda);
});

function tallyTimes(fromMs: number): number[] {
  return site.frames.filter(({ message, atMs }) => message.frame === 'tally' && atMs > fromMs).map(({ atMs }) => atMs);
}

function lastTally() {
  return saw.sent('tally').at(-1)!;
}

test('TAL-1: a tally every 5 s while running, one at the stop, then one every 60 s', () => {
  const startMs = site.nowMs;
  saw.work(12_000, 3 * MINUTE);
  const confirmedMs = startMs + 200;
  const stoppedMs = startMs + 12_500;
  expect(tallyTimes(startMs)).toEqual([
    confirmedMs + 5_000,
    confirmedMs + 10_000,
    stoppedMs,
    stoppedMs + MINUTE,
    stoppedMs + 2 * MINUTE,
  ]);
});

test('TAL-1: a new session is told at once', () => {
  expect(saw.sent('tally')).toHaveLength(1);
  expect(lastTally()).toMatchObject({ sequence: 1, dose: 0, triggerWindows: 0, flags: 0 });
});

test('TAL-1: a tally carries the cumulative sums, the magnitude, the cell and the flags of the session', () => {
  saw.work(7_000);
  saw.work(3_000);
  expect(lastTally()).toMatchObject({
    dose: 100 * 100 * 2500,
    triggerWindows: 100,
    unratedWindows: 0,
    magnitudeTenths: 50,
    cell: 3,
    flags: 0,
  });
});

test('TAL-1: the sequence rises by one with every frame of the session', () => {
  saw.windows(WORK_MM, REST_MM);
  saw.work(20_000, 2 * MINUTE);
  const sequences = site.frames.flatMap(({ from, message }) =>
    from === saw.id && (message.frame === 'tally' || message.frame === 'report') ? [message.sequence] : [],
  );
  expect(sequences).toEqual(sequences.map((_, index) => index + 1));
});

test('TAL-1: the flags tell of running, a sensor fault, short bursts and the seal', () => {
  saw.level(WORK_MM);
  site.runFor(6_000);
  expect(lastTally().flags).toBe(TALLY_FLAGS.running);
  saw.level(REST_MM);
  site.runFor(1_000);
  saw.windows(WORK_MM, REST_MM);
  saw.sensor('silent');
  site.runFor(MINUTE);
  expect(lastTally().flags).toBe(TALLY_FLAGS.shortBursts | TALLY_FLAGS.sensorFault);
  edda.close();
  site.runFor(MINUTE);
  expect(lastTally().flags).toBe(TALLY_FLAGS.shortBursts | TALLY_FLAGS.sensorFault | TALLY_FLAGS.sealed);
});

test('TRG-5: a sensor fault that is over by the next tally is told all the same, for the rest of its session', () => {
  saw.sensor('frozen');
  site.runFor(1_000);
  saw.sensor('good');
  site.runFor(2 * MINUTE);
  expect(lastTally().flags).toBe(TALLY_FLAGS.sensorFault);
  expect(edda.display.icons).toContain('incomplete');
  pairUp(saw, edda);
  expect(lastTally().flags).toBe(0);
});

test('MAG-6: unrated windows are carried in tallies, and the magnitude is 0', () => {
  const drill = new CounterRig(site, 2, 0);
  pairUp(drill, edda);
  drill.work(2_000);
  expect(drill.sent('tally').at(-1)).toMatchObject({
    dose: 0,
    triggerWindows: 20,
    unratedWindows: 20,
    magnitudeTenths: 0,
  });
});

test('TRG-3: a report tells of short bursts beside each tally until it is acknowledged, and again with news', () => {
  site.air = () => [];
  saw.windows(WORK_MM, REST_MM);
  site.runFor(3 * MINUTE);
  expect(saw.sent('report').map(({ shortBursts }) => shortBursts)).toEqual([1, 1, 1]);
  site.air = () => [5];
  site.runFor(5 * MINUTE);
  expect(saw.sent('report')).toHaveLength(4);
  saw.windows(WORK_MM, REST_MM);
  site.runFor(5 * MINUTE);
  expect(saw.sent('report').map(({ shortBursts }) => shortBursts)).toEqual([1, 1, 1, 1, 2]);
  site.air = () => [];
  saw.windows(WORK_MM, REST_MM);
  site.runFor(2 * MINUTE);
  expect(saw.sent('report').map(({ shortBursts }) => shortBursts)).toEqual([1, 1, 1, 1, 2, 3, 3]);
});
