// PAI-5 over power failures: sealed sessions are kept as the frames that they were, with their keys, and told again verbatim.
import { beforeEach, expect, test } from 'vitest';
import { hexText } from '../../src/bench/hex.js';
import { REST_MM, WORK_MM } from '../rig/counter-rig.js';
import { away, newCrew, SAW_SECOND } from '../rig/crew.js';
import { MINUTE } from '../rig/day.js';
import { pairUp } from '../rig/pair-up.js';
import { WearableRig } from '../rig/wearable-rig.js';

let { site, saw, edda, bram } = newCrew();
beforeEach(() => {
  ({ site, saw, edda, bram } = newCrew());
});

function toEdda(fromMs: number): string[] {
  const sent = site.frames.filter(({ from, to, atMs }) => from === saw.id && to === edda.id && atMs >= fromMs);
  return sent.map(({ bytes }) => hexText(bytes));
}

/** Edda's session ends while she is away: a report and a tally wait for her. */
function sealWhileAway(): void {
  pairUp(saw, edda);
  saw.work(10_000);
  site.air = away(edda);
  saw.windows(WORK_MM, REST_MM);
  saw.work(5_000);
  pairUp(saw, bram);
}

test('after a power failure the same frames are told at once and again, word for word', () => {
  sealWhileAway();
  const before = new Set(toEdda(site.nowMs - 1_000));
  expect(before.size).toBe(2);
  saw.cutPower();
  site.runFor(10 * MINUTE);
  saw.powerUp();
  const backMs = site.nowMs;
  site.runFor(5 * MINUTE);
  const after = toEdda(backMs);
  expect(after.slice(0, 2)).toEqual([...before]);
  expect(new Set(after)).toEqual(before);
  expect(after.length).toBeGreaterThanOrEqual(10);
});

test('when the wearable is back it is charged all of it, and the session is let go of for good', () => {
  sealWhileAway();
  saw.cutPower();
  saw.powerUp();
  site.air = () => [5];
  site.runFor(MINUTE + 1_000);
  expect(edda.dose).toBe(15 * SAW_SECOND);
  expect(saw.sessions.at(-1)).toBe('delivered 1');
  saw.cutPower();
  saw.powerUp();
  const backMs = site.nowMs;
  site.runFor(5 * MINUTE);
  expect(toEdda(backMs)).toEqual([]);
  expect(saw.states.get('sealed')).toBe('none');
});

test('sessions of several wearables, each with its own key, outlast it side by side; numbers go on growing', () => {
  const crew = [21, 22, 23].map((id) => new WearableRig(site, id));
  for (const [index, wearable] of crew.entries()) {
    site.air = () => [5];
    pairUp(saw, wearable);
    site.air = away(...crew);
    saw.work(1_000 * (index + 1));
    saw.cutPower();
    saw.powerUp();
  }
  site.air = () => [5];
  pairUp(saw, bram);
  site.runFor(MINUTE);
  expect(crew.map(({ dose }) => dose / SAW_SECOND)).toEqual([1, 2, 3]);
  expect(crew.flatMap(({ refused }) => refused)).toEqual([]);
  expect(saw.observe().session).toBe(4);
});

test('32 sessions outlast it: the store is as full as before, and shown to be', () => {
  const crew = Array.from({ length: 32 }, (_, index) => new WearableRig(site, 100 + index));
  for (const wearable of crew) {
    site.air = ({ from, to }) => (from === wearable.id || to === wearable.id ? [5] : []);
    pairUp(saw, wearable);
    site.air = () => [];
    saw.work(1_000);
  }
  expect(saw.display.icons).toContain('full');
  saw.cutPower();
  saw.powerUp();
  expect(saw.display.icons).toContain('full');
  saw.touch(bram.id);
  expect(saw.display.screen).toBe('refused-full');
  site.air = () => [5];
  site.runFor(2 * MINUTE);
  expect(crew.map(({ dose }) => dose)).toEqual(crew.map(() => SAW_SECOND));
});

test('MAG-1: the magnitude outlasts it, and what was keyed in before the first day no longer counts', () => {
  saw.hold();
  saw.turn(7);
  saw.push();
  saw.push();
  saw.cutPower();
  saw.powerUp();
  expect(saw.observe().magnitudeTenths).toBe(57);
  expect(saw.display).toMatchObject({ screen: 'ready', value: 57 });
});

test('PAI-1: a pairing that power broke off leaves both as before', () => {
  pairUp(saw, edda);
  saw.work(2_000);
  saw.touch(bram.id);
  bram.touch(saw.id);
  site.runFor(100);
  saw.push();
  saw.cutPower();
  site.runFor(500);
  saw.powerUp();
  bram.tap();
  site.runFor(30_000);
  expect(saw.observe()).toMatchObject({ session: 1, dose: 2 * SAW_SECOND });
  expect([saw.display.screen, bram.display.screen]).toEqual(['ready', 'ready']);
  expect(bram.shifts).toEqual([]);
});
