// PAI-5: a sealed session is kept, and told again, until its wearable has acknowledged all of it.
import { beforeEach, expect, test } from 'vitest';
import { hexText } from '../../src/bench/hex.js';
import { freeLink } from '../../src/counter/sessions.js';
import { freshState } from '../../src/counter/state.js';
import { REST_MM, WORK_MM } from '../rig/counter-rig.js';
import { away, newCrew } from '../rig/crew.js';
import { MINUTE } from '../rig/day.js';
import { FULL_MV } from '../rig/device-rig.js';
import { pairUp } from '../rig/pair-up.js';
import { ToldWearable } from '../rig/told-wearable.js';
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
  const texts = new Set(resent.map(({ bytes }) => hexText(bytes)));
  expect(texts.size).toBe(2);
  expect(new Set(resent.map(({ message }) => message.frame))).toEqual(new Set(['report', 'tally']));
  for (const text of texts) {
    const timesMs = resent.filter(({ bytes }) => hexText(bytes) === text).map(({ atMs }) => atMs);
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

test('PAI-5: an acknowledgement lets go only of the session of its link, and only under its key', () => {
  const carla = new ToldWearable(saw, 13);
  carla.pair();
  carla.pair();
  const [link, secured] = [carla.answer.link, carla.secured!];
  carla.pair();
  expect(saw.sessions.filter((what) => what.startsWith('sealed'))).toEqual(['sealed 1', 'sealed 2']);
  const all = { link, highest: 9, highestReport: 9 };
  carla.acknowledge('none', 0, all);
  expect(saw.refused).toEqual(['tag']);
  carla.seal(carla.acknowledgement('none', 0, all), secured);
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
  const state = freshState(1, FULL_MV);
  expect(freeLink(state, 0)).toBe(1);
  expect(freeLink(state, 0x1234_0000)).toBe(1);
  expect(freeLink(state, 0xabcd_ef01)).toBe(0xef01);
  const rest = { key: new Uint8Array(16), wearable: 11, frames: [], kept: true };
  state.sealed.push({ ...rest, session: 1, link: 0xffff, slot: 0 });
  state.sealed.push({ ...rest, session: 2, link: 1, slot: 1 });
  expect(freeLink(state, 0xffff)).toBe(2);
});
