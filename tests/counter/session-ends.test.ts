// PAI-6: a session ends without a successor when its wearer closes the shift, or after 6 h without running.
import { beforeEach, expect, test } from 'vitest';
import { REST_MM, WORK_MM } from '../rig/counter-rig.js';
import { away, newCrew, SAW_SECOND } from '../rig/crew.js';
import { HOUR, MINUTE } from '../rig/day.js';
import { pairUp } from '../rig/pair-up.js';

let { site, saw, edda, bram } = newCrew();
beforeEach(() => {
  ({ site, saw, edda, bram } = newCrew());
});

test('PAI-6: the session ends without a successor when the wearer closes the shift', () => {
  pairUp(saw, edda);
  saw.work(10_000);
  edda.close();
  site.runFor(MINUTE);
  expect(saw.sessions).toEqual(['opened 1', 'sealed 1', 'delivered 1']);
  saw.work(5_000);
  expect(saw.observe()).toMatchObject({ session: 0, dose: 5 * SAW_SECOND });
  site.runFor(MINUTE);
  expect(edda.dose).toBe(10 * SAW_SECOND);
});

test('PAI-6: a shift closed while the tool runs ends the session with the next tally; the rest of the run is unclaimed', () => {
  pairUp(saw, edda);
  const startMs = site.nowMs;
  saw.level(WORK_MM);
  site.runFor(10_000);
  edda.close();
  site.runFor(10_000);
  saw.level(REST_MM);
  site.runFor(MINUTE);
  const charged = edda.dose / SAW_SECOND;
  expect(charged).toBeGreaterThanOrEqual(10);
  expect(charged).toBeLessThanOrEqual(15.2);
  expect(saw.observe().dose + edda.dose).toBe(20 * SAW_SECOND);
  expect(saw.counted.get(1)).toMatchObject({ dose: edda.dose });
  expect(saw.observe().session).toBe(0);
  expect(startMs % 100).toBe(0);
});

test('PAI-6: after 6 h without running the counter ends the session, to the millisecond, in or out of range', () => {
  pairUp(saw, edda);
  site.air = away(edda);
  saw.work(10_000, 500);
  const stoppedMs = site.nowMs;
  site.runTo(stoppedMs + 6 * HOUR - 1);
  expect(saw.observe().session).toBe(1);
  site.runFor(1);
  expect(saw.observe().session).toBe(0);
  expect(saw.sessions).toEqual(['opened 1', 'sealed 1']);
});

test('PAI-6: running within the 6 h starts them again, however short the burst', () => {
  pairUp(saw, edda);
  saw.work(10_000);
  site.runFor(6 * HOUR - 10_000);
  saw.work(200);
  site.runFor(6 * HOUR - 10_000);
  expect(saw.sessions).toEqual(['opened 1']);
  site.runFor(10_000);
  expect(saw.sessions.slice(0, 2)).toEqual(['opened 1', 'sealed 1']);
});

test('PAI-6: the 6 h begin anew with a pairing, for the session that it opens', () => {
  pairUp(saw, edda);
  site.runFor(5 * HOUR);
  pairUp(saw, bram);
  site.runFor(5 * HOUR);
  expect(saw.observe().session).toBe(2);
  site.runFor(HOUR);
  expect(saw.observe().session).toBe(0);
});

test('a session in which nothing ever ran ends after 6 h too, and is delivered', () => {
  pairUp(saw, edda);
  site.runFor(6 * HOUR + MINUTE);
  expect(saw.sessions).toEqual(['opened 1', 'sealed 1', 'delivered 1']);
});
