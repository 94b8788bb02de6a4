// TAL-1, TAL-5, ACC-2 and TRG-3 as the counter tells them: when it speaks, what it says, what it shows of the answers.
import { beforeEach, expect, test } from 'vitest';
import type { Parts } from '../../src/counter/parts.js';
import { openSession } from '../../src/counter/sessions.js';
import { freshState } from '../../src/counter/state.js';
import { makeReport, makeTally, tell } from '../../src/counter/telling.js';
import { type Acknowledgement, ALERT_LEVELS, type Message, TALLY_FLAGS } from '../../src/link/messages.js';
import { CounterRig, REST_MM, WORK_MM } from '../rig/counter-rig.js';
import { MINUTE } from '../rig/day.js';
import { pairUp } from '../rig/pair-up.js';
import { Site } from '../rig/site.js';
import { WearableRig } from '../rig/wearable-rig.js';

let site: Site;
let saw: CounterRig;
let edda: WearableRig;
beforeEach(() => {
  site = new Site();
  saw = new CounterRig(site, 1, 50);
  edda = new WearableRig(site, 11);
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
});

/** An acknowledgement as the wearable would send it; later ones have higher sequences. */
function answer(level: (typeof ALERT_LEVELS)[number], leftTenths: number, sequence: number): Acknowledgement {
  const { link, sequence: highest } = lastTally();
  const index = ALERT_LEVELS.indexOf(level);
  return { frame: 'ack', link, sequence, highest, highestReport: 0, level: index, leftTenths, closed: false };
}

test('TAL-5: the counter shows the level, and the minutes left at its magnitude', () => {
  // 5.0 m/s² make 50 points an hour, 5 in 6 min: 30 points are 36 min, one tenth less is less than that.
  saw.hear(answer('notice', 300, 10), edda.id);
  expect(saw.display).toMatchObject({ screen: 'ready', value: 50, second: 36, icons: ['level-notice'] });
  saw.hear(answer('notice', 299, 11), edda.id);
  expect(saw.display.second).toBe(35);
});

test('TAL-5: past the last level no minutes are left, which is not blank', () => {
  saw.hear(answer('limit', 0, 10), edda.id);
  expect(saw.display).toMatchObject({ second: 0, icons: ['level-limit'] });
});

test('TAL-5: level and minutes are blank after 90 s without an acknowledgement', () => {
  site.air = () => [];
  saw.hear(answer('action', 300, 10), edda.id);
  site.runFor(89_999);
  expect(saw.display).toMatchObject({ second: 36, icons: ['level-action'] });
  site.runFor(1);
  expect(saw.display).toMatchObject({ second: -1, icons: [] });
});

test('TAL-5: while acknowledgements come, nothing is blank', () => {
  site.runFor(10 * MINUTE);
  expect(saw.shown.filter(({ atMs, second }) => atMs > 2_000 && second === -1)).toEqual([]);
  expect(saw.display.second).toBe(96);
});

test('TAL-5: an acknowledgement carries the highest sequence seen, the level and the points left to the next', () => {
  saw.work(60_000);
  expect(edda.sent('ack').at(-1)).toMatchObject({
    highest: lastTally().sequence,
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
  const bram = new WearableRig(site, 12);
  saw.hear(answer('action', 300, 100), edda.id);
  site.air = ({ message }) => (message.frame === 'ack' ? [] : [5]);
  pairUp(saw, bram);
  expect(saw.display).toMatchObject({ second: -1, icons: [] });
});

test('TAL-4: frames of strangers, and frames that a counter has no use for, change nothing and are told of', () => {
  const shown = saw.shown.length;
  const stray: Message[] = [
    { ...answer('limit', 0, 10), link: (lastTally().link + 1) & 0xffff },
    lastTally(),
    { frame: 'report', link: 1, sequence: 1, shortBursts: 0, powerLosses: 0, unclaimedDose: 0, unclaimedWindows: 0 },
    { frame: 'hello', counter: saw.id, wearable: 12, nonce: 5 },
    { frame: 'accept', counter: saw.id, wearable: 12, link: 1 },
    { frame: 'refuse', counter: saw.id, wearable: 12, reason: 'busy' },
    { frame: 'answer', counter: saw.id, wearable: 12, nonce: 5, link: 1, session: 1 },
  ];
  for (const message of stray) saw.hear(message, 12);
  saw.hear(answer('limit', 0, 10), 12);
  expect(saw.refused).toHaveLength(stray.length + 1);
  expect(saw.shown).toHaveLength(shown);
  expect(saw.observe().session).toBe(1);
});

/** The parts of a counter with an open session, for what a day cannot reach. */
function partsWithSession(): Parts & { readonly sent: Message[]; readonly events: string[] } {
  const state = freshState(1, 50);
  openSession(state, { peer: 11, link: 7, session: 1, nonce: 0, digits: -1 });
  const sent: Message[] = [];
  const events: string[] = [];
  const board = { show: () => {}, send: (message: Message) => sent.push(message), refused: () => {}, random: () => 0 };
  const inner = { state: () => {}, count: () => {}, magnitude: () => {}, session: () => {} };
  return { state, board, inner, nowMs: () => 0, send: ({ type }) => events.push(type), sent, events };
}

test('TAL-2: an exhausted sequence seals the session, with numbers kept for its last frames', () => {
  const parts = partsWithSession();
  const open = parts.state.open!;
  open.sums.shortBursts = 1;
  open.sequence = 2 ** 32 - 8;
  for (let told = 0; parts.events.length === 0; told++) {
    expect(told).toBeLessThan(10);
    tell(parts);
  }
  expect(parts.events).toEqual(['CLOSED']);
  makeReport(parts.state, open);
  expect(makeTally(parts.state, open, true).sequence).toBeLessThanOrEqual(2 ** 32 - 1);
});

test('ACC-2: a saturated session says so in its tally', () => {
  const parts = partsWithSession();
  const open = parts.state.open!;
  open.sums.dose = 2 ** 52 - 2;
  expect(makeTally(parts.state, open, false).flags & TALLY_FLAGS.saturated).toBe(0);
  open.sums.dose = 2 ** 52 - 1;
  expect(makeTally(parts.state, open, false).flags & TALLY_FLAGS.saturated).toBe(TALLY_FLAGS.saturated);
});
