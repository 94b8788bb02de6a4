// PAI-1: what opens a session, and within what time; all else leaves both as before.
import { beforeEach, expect, test } from 'vitest';
import { newCrew } from '../rig/crew.js';
import { touch } from '../rig/pair-up.js';
import { ToldWearable } from '../rig/told-wearable.js';

const ANSWERED_MS = 20;

let { site, saw, edda, bram } = newCrew();
beforeEach(() => {
  ({ site, saw, edda, bram } = newCrew());
});

/** Touched, with the digits on both. */
function touched(): void {
  touch(saw, edda);
  site.runFor(ANSWERED_MS);
  expect([saw.display.screen, edda.display.screen]).toEqual(['digits', 'digits']);
}

function expectAsBefore(): void {
  expect(saw.sessions).toEqual([]);
  expect(saw.observe().session).toBe(0);
  expect(edda.shifts).toEqual([]);
  expect([saw.display.screen, edda.display.screen]).toEqual(['ready', 'ready']);
}

test('a touch shows the same four digits on both', () => {
  touched();
  expect(saw.display.value).toBe(edda.display.value);
  expect(saw.display.value).toBeGreaterThanOrEqual(0);
  expect(saw.display.value).toBeLessThanOrEqual(9999);
});

test('other pairings show other digits', () => {
  touched();
  const first = saw.display.value;
  site.runFor(40_000);
  touched();
  expect(saw.display.value).not.toBe(first);
});

test.each([
  ['push, then tap', () => [saw.push(), site.runFor(1500), edda.tap()]],
  ['tap, then push', () => [edda.tap(), site.runFor(1500), saw.push()]],
])('%s: the session opens, and the shift with it', (_, accept) => {
  touched();
  accept();
  site.runFor(1100);
  expect(saw.sessions).toEqual(['opened 1']);
  expect(saw.observe().session).toBe(1);
  expect(edda.shifts.map(({ what }) => what)).toEqual(['opened 1']);
  expect(edda.display).toMatchObject({ screen: 'points', value: 0 });
  expect(saw.display.screen).toBe('ready');
  // The same accept once more opens nothing more.
  saw.hear(edda.sentBytes('accept').at(-1)!);
  expect(saw.refused).toEqual(['unexpected']);
  expect(saw.sessions).toEqual(['opened 1']);
});

test('a push alone opens nothing', () => {
  touched();
  saw.push();
  site.runFor(30_000);
  expectAsBefore();
});

test('a tap alone opens nothing', () => {
  touched();
  edda.tap();
  site.runFor(30_000);
  expectAsBefore();
});

test('a touch opens pairing for 30 s, and not longer', () => {
  const carla = new ToldWearable(saw, 13);
  carla.touch();
  site.runFor(29_999);
  expect(saw.display.screen).toBe('pairing');
  site.runFor(1);
  expect(saw.display.screen).toBe('ready');
  carla.hello();
  expect(saw.refused).toEqual(['foreign']);
  expect(saw.display.screen).toBe('ready');
});

test('the same at the wearable', () => {
  edda.touch(saw.id);
  site.runFor(29_999);
  expect(edda.display.screen).toBe('pairing');
  site.runFor(1);
  expect(edda.display.screen).toBe('ready');
});

test('the digits stand for 20 s: a push and a tap in the last of them pair, later ones do not', () => {
  touched();
  const shownMs = saw.display.atMs;
  edda.tap();
  site.runTo(shownMs + 19_900);
  saw.push();
  site.runFor(99);
  expect(saw.sessions).toEqual(['opened 1']);

  site.runTo(100_000);
  touch(saw, bram);
  site.runFor(ANSWERED_MS);
  bram.tap();
  site.runTo(saw.display.atMs + 20_000);
  expect(saw.display.screen).toBe('ready');
  saw.push();
  site.runFor(30_000);
  expect(saw.sessions).toEqual(['opened 1']);
});

test('a hold of the ring accepts nothing, a turn neither', () => {
  touched();
  edda.tap();
  saw.hold();
  saw.turn(1);
  site.runFor(30_000);
  expectAsBefore();
});
