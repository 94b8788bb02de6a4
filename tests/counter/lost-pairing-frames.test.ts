// PAI-1: lost frames of a pairing are said again; where one stays lost both are as before, and where it is the last one, the key
// that nobody confirmed charges nothing.
import { beforeEach, expect, test } from 'vitest';
import type { Message } from '../../src/link/pairing-messages.js';
import { newCrew } from '../rig/crew.js';
import { pairUp, touch } from '../rig/pair-up.js';

let { site, saw, edda } = newCrew();
beforeEach(() => {
  ({ site, saw, edda } = newCrew());
});

test('lost frames are said again: a pairing comes through an air that loses the first of every kind', () => {
  const heard = new Set<string>();
  site.air = ({ from, message }) => {
    const kind = `${from} ${message.frame}`;
    if (heard.has(kind)) return [5];
    heard.add(kind);
    return [];
  };
  touch(saw, edda);
  site.runFor(5000);
  expect([saw.display.screen, edda.display.screen]).toEqual(['digits', 'digits']);
  saw.push();
  edda.tap();
  site.runFor(5000);
  expect(saw.sessions).toEqual(['opened 1']);
  site.runFor(60_000);
  expect(edda.shifts).toHaveLength(1);
});

const FRAMES: readonly Message['frame'][] = ['hello', 'answer', 'nonce', 'reveal', 'accept'];

test.each([...FRAMES.map((frame) => [frame, 'either']), ['accept', 'the counter']])(
  'where every %s of %s is lost, both are as before, and can pair afterwards',
  (frame, sender) => {
    site.air = ({ from, message }) => (message.frame === frame && (sender === 'either' || from === saw.id) ? [] : [5]);
    touch(saw, edda);
    site.runFor(100);
    edda.tap();
    saw.push();
    site.runFor(40_000);
    expect(saw.sessions).toEqual([]);
    expect(saw.observe().session).toBe(0);
    expect(edda.shifts).toEqual([]);
    expect([saw.display.screen, edda.display.screen]).toEqual(['ready', 'ready']);
    expect(site.frames.filter(({ message }) => message.frame === frame).length).toBeGreaterThan(0);
    site.air = () => [5];
    pairUp(saw, edda);
    expect(saw.sessions).toEqual(['opened 1']);
  },
);

test('where the last message is lost, the counter is as before and the key charges nothing', () => {
  touch(saw, edda);
  site.runFor(100);
  site.air = ({ from, message }) => (from === edda.id && message.frame === 'accept' ? [] : [5]);
  edda.tap();
  saw.push();
  site.runFor(40_000);
  expect(edda.sent('accept').length).toBeGreaterThan(0);
  expect(saw.sessions).toEqual([]);
  expect(edda.shifts).toEqual([]);
  expect([saw.display.screen, edda.display.screen]).toEqual(['ready', 'ready']);

  site.air = () => [5];
  saw.work(60_000);
  site.runFor(300_000);
  expect(edda.ledger).toEqual([]);
  expect(edda.marks).toEqual([]);
  expect(saw.observe()).toMatchObject({ session: 0, triggerWindows: 600 });

  // The same two can pair afterwards, and what is counted from then on is charged once.
  pairUp(saw, edda);
  saw.work(10_000);
  expect(saw.sessions).toEqual(['opened 1']);
  expect(edda.dose).toBe(100 * 100 * 2500);
});

test('the key of a lost last message is known to the wearable alone, and after its power failed too it charges nothing', () => {
  touch(saw, edda);
  site.runFor(100);
  site.air = ({ from, message }) => (from === edda.id && message.frame === 'accept' ? [] : [5]);
  edda.tap();
  saw.push();
  site.runFor(40_000);
  expect(edda.paired).toEqual([{ counter: saw.id, session: 1, shift: 1 }]);
  edda.cutPower();
  edda.powerUp();
  site.air = () => [5];
  saw.work(10_000);
  pairUp(saw, edda);
  saw.work(5_000);
  expect(edda.ledger.filter(({ dose }) => dose > 0).map(({ session, dose }) => [session, dose])).toEqual([
    [1, 5_000 * 2500],
  ]);
});
