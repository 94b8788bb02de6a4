// PAI-3: a pairing seals the session and opens the next; a worker is charged the sessions opened with that wearable.
import { beforeEach, expect, test } from 'vitest';
import { away, newCrew, SAW_SECOND } from '../rig/crew.js';
import { pairUp, touch } from '../rig/pair-up.js';

let { site, saw, edda, bram } = newCrew();
beforeEach(() => {
  ({ site, saw, edda, bram } = newCrew());
});

test('PAI-3: a pairing seals the session and opens the next; numbers only grow', () => {
  pairUp(saw, edda);
  saw.work(10_000);
  pairUp(saw, bram);
  saw.work(20_000);
  pairUp(saw, edda);
  saw.work(30_000);
  expect(saw.sessions.filter((what) => what.startsWith('opened'))).toEqual(['opened 1', 'opened 2', 'opened 3']);
  expect(edda.dose).toBe(400 * 100 * 2500);
  expect(bram.dose).toBe(200 * 100 * 2500);
});

test('PAI-3: an aborted pairing takes no number and seals nothing', () => {
  pairUp(saw, edda);
  touch(saw, bram);
  site.runFor(40_000);
  expect(saw.sessions).toEqual(['opened 1']);
  pairUp(saw, bram);
  expect(saw.sessions).toEqual(['opened 1', 'sealed 1', 'opened 2', 'delivered 1']);
});

test('PAI-3: a handover while the first wearable is away: each is charged for its own session, the first one late', () => {
  pairUp(saw, edda);
  saw.work(10_000);
  site.air = away(edda);
  saw.work(20_000);
  pairUp(saw, bram);
  saw.work(40_000);
  expect(edda.dose).toBe(10 * SAW_SECOND);
  expect(bram.dose).toBe(40 * SAW_SECOND);
  site.air = () => [5];
  site.runFor(60_000);
  expect(edda.dose).toBe(30 * SAW_SECOND);
  expect(bram.dose).toBe(40 * SAW_SECOND);
  expect(saw.sessions).toContain('delivered 1');
});

test('PAI-3: a session that opens by a handover is told at once', () => {
  pairUp(saw, edda);
  pairUp(saw, bram);
  expect(bram.display).toMatchObject({ screen: 'points', value: 0 });
});
