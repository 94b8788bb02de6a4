// PAI-5: a sealed session is kept, and told again, until its wearable has acknowledged all of it.
import { beforeEach, expect, test } from 'vitest';
import { freeLink } from '../../src/counter/sessions.js';
import { freshState } from '../../src/counter/state.js';
import { REST_MM, WORK_MM } from '../rig/counter-rig.js';
import { away, newCrew } from '../rig/crew.js';
import { MINUTE } from '../rig/day.js';
import { pairUp } from '../rig/pair-up.js';
import { WearableRig } from '../rig/wearable-rig.js';

let { site, saw, edda, bram } = newCrew();
beforeEach(() => {
  ({ site, saw, edda, bram } = newCrew());
});

test('PAI-5: a sealed session is resent verbatim at least every 60 s until acknowledged, then no more', () => {
  pairUp(saw, edda);
  saw.work(10_000);
  site.air = away(edda);
  saw.windows(WORK_MM, REST_MM);
  pairUp(saw, bram);
  const sealedMs = site.nowMs;
  site.runFor(10 * MINUTE);
  const resent = site.frames.filter(({ to, atMs }) => to === edda.id && atMs >= sealedMs - 1000);
  const texts = new Set(resent.map(({ message }) => JSON.stringify(message)));
  expect(texts.size).toBe(2);
  expect([...texts].join()).toContain('"frame":"report"');
  for (const text of texts) {
    const timesMs = resent.filter(({ message }) => JSON.stringify(message) === text).map(({ atMs }) => atMs);
    expect(timesMs.length).toBeGreaterThanOrEqual(10);
    const gapsMs = timesMs.slice(1).map((atMs, index) => atMs - timesMs[index]!);
    expect(Math.max(...gapsMs)).toBeLessThanOrEqual(60_000);
  }

  site.air = () => [5];
  site.runFor(60_000);
  expect(saw.sessions.at(-1)).toBe('delivered 1');
  expect(saw.states.get('sealed')).toBe('none');
  const delivered = site.frames.length;
  site.runFor(5 * MINUTE);
  expect(site.frames.slice(delivered).filter(({ to }) => to === edda.id)).toEqual([]);
});

test('PAI-5: an acknowledgement that is lost is given again for the duplicate, which changes nothing', () => {
  pairUp(saw, edda);
  saw.work(10_000);
  site.air = ({ from }) => (from === edda.id ? [] : [5]);
  edda.close();
  site.runFor(MINUTE);
  const [dose, changes] = [edda.dose, edda.ledger.length];
  site.air = ({ from, message }) => (from === edda.id && message.frame === 'ack' ? [] : [5]);
  pairUp(saw, bram);
  site.runFor(3 * MINUTE);
  expect(saw.sessions).not.toContain('delivered 1');
  expect(edda.dose).toBe(dose);
  expect(edda.ledger).toHaveLength(changes);
  site.air = () => [5];
  site.runFor(MINUTE);
  expect(saw.sessions).toContain('delivered 1');
  expect(edda.ledger).toHaveLength(changes);
});

test('PAI-5: a session is let go only when its report is acknowledged too', () => {
  pairUp(saw, edda);
  saw.windows(WORK_MM, REST_MM);
  site.air = ({ to, message }) => (to === edda.id && message.frame === 'report' ? [] : [5]);
  pairUp(saw, bram);
  site.runFor(5 * MINUTE);
  expect(saw.sessions).not.toContain('delivered 1');
  site.air = () => [5];
  site.runFor(2 * MINUTE);
  expect(saw.sessions).toContain('delivered 1');
});

test('PAI-5: an acknowledgement lets go only of the session of its link', () => {
  site.air = ({ message }) => (message.frame === 'tally' || message.frame === 'report' ? [] : [5]);
  pairUp(saw, edda);
  pairUp(saw, edda);
  pairUp(saw, bram);
  const [, second] = new Set(saw.sent('tally').map(({ link }) => link));
  const rest = { sequence: 9, highest: 9, highestReport: 9, level: 0, leftTenths: 0, closed: false };
  saw.hear({ frame: 'ack', link: second!, ...rest }, bram.id);
  expect(saw.refused).toHaveLength(1);
  saw.hear({ frame: 'ack', link: second!, ...rest }, edda.id);
  expect(saw.sessions.at(-1)).toBe('delivered 2');
  expect(saw.sessions).not.toContain('delivered 1');
});

test('PAI-5: a session is told as sealed at once, also while others are still waiting for their wearables', () => {
  const carl = new WearableRig(site, 13);
  pairUp(saw, edda);
  site.air = away(edda);
  pairUp(saw, bram);
  site.runFor(30_000);
  pairUp(saw, carl);
  expect(saw.sessions.at(-1)).toBe('delivered 2');
});

test('the name of a link is never 0 and never one that is in use', () => {
  const state = freshState(1, 0);
  expect(freeLink(state, 0)).toBe(1);
  expect(freeLink(state, 0x1234_0000)).toBe(1);
  expect(freeLink(state, 0xabcd_ef01)).toBe(0xef01);
  state.sealed.push({ session: 1, link: 0xffff, wearable: 11, frames: [] });
  state.sealed.push({ session: 2, link: 1, wearable: 11, frames: [] });
  expect(freeLink(state, 0xffff)).toBe(2);
});
