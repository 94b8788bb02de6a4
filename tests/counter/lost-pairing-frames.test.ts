// PAI-1: lost frames of a pairing are said again; where the last one stays lost, the key that nobody confirmed charges nothing.
import { beforeEach, expect, test } from 'vitest';
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
