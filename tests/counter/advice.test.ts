// TAL-5, TAL-4: what the counter makes of acknowledgements, and of frames of strangers.
import { beforeEach, expect, test } from 'vitest';
import { type Acknowledgement, ALERT_LEVELS, type Message } from '../../src/link/messages.js';
import { CounterRig } from '../rig/counter-rig.js';
import { newCrew } from '../rig/crew.js';
import { MINUTE } from '../rig/day.js';
import { pairUp } from '../rig/pair-up.js';

let { site, saw, edda, bram } = newCrew();
beforeEach(() => {
  ({ site, saw, edda, bram } = newCrew());
  pairUp(saw, edda);
});

function lastTally() {
  return saw.sent('tally').at(-1)!;
}

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
