// TAL-3, TAL-5, PAI-1 at the wearable: which frames it takes, what it answers, and what changes nothing.
import { beforeEach, expect, test } from 'vitest';
import { POINT } from '../rig/levels.js';
import { Site } from '../rig/site.js';
import { ToldCounter } from '../rig/told-counter.js';
import { ToldSession, toldSession } from '../rig/told-session.js';
import { WearableRig } from '../rig/wearable-rig.js';

let site: Site;
let edda: WearableRig;
beforeEach(() => {
  site = new Site();
  edda = new WearableRig(site, 11);
});

test('every tally of a counter at rest is answered, a doubled one again, with rising sequences', () => {
  const saw = toldSession(edda);
  const tally = saw.tell({ dose: POINT });
  saw.hear(tally);
  const acks = edda.sent('ack');
  expect(acks.map(({ sequence, highest }) => [sequence, highest])).toEqual([
    [1, 1],
    [2, 2],
    [3, 2],
  ]);
  expect(acks.map(({ highestReport }) => highestReport)).toEqual([0, 0, 0]);
  const sums = { dose: POINT, triggerWindows: 0, unratedWindows: 0 };
  expect(edda.ledger).toEqual([{ counter: 1, session: 1, shift: 1, total: POINT, ...sums }]);
});

test('while a counter runs every other tally is answered; news at once', () => {
  const saw = toldSession(edda);
  const answered: boolean[] = [];
  const tellAfter5s = (said: Parameters<ToldSession['tell']>[0]): void => {
    site.runFor(5_000);
    const before = edda.sent('ack').length;
    saw.tell(said);
    answered.push(edda.sent('ack').length > before);
  };
  for (let told = 1; told <= 5; told++) tellAfter5s({ flags: ['running'], dose: told, windows: 50 * told });
  expect(answered).toEqual([true, false, true, false, true]);
  saw.report(7);
  tellAfter5s({ flags: ['running'], sequence: 8 });
  tellAfter5s({ flags: ['running'], sequence: 9 });
  tellAfter5s({ flags: ['running', 'shortBursts'] });
  tellAfter5s({ flags: ['running', 'shortBursts'] });
  tellAfter5s({ flags: ['running', 'shortBursts'] });
  // News: a report, a flag.
  expect(answered.slice(5)).toEqual([true, false, true, false, true]);
  edda.close();
  tellAfter5s({ flags: ['running', 'shortBursts'] });
  expect(answered.at(-1)).toBe(true);
  expect(edda.sent('ack').at(-1)!.closed).toBe(true);
});

test('a level that a tally passes is told with the answer to that tally', () => {
  const saw = toldSession(edda);
  saw.tell({ dose: 78 * POINT, flags: ['running'] });
  site.runFor(5_000);
  saw.tell({ dose: 79 * POINT, flags: ['running'] });
  expect(edda.sent('ack').at(-1)!.highest).toBe(2);
  saw.tell({ dose: 81 * POINT, flags: ['running'] });
  expect(edda.sent('ack').at(-1)).toMatchObject({ highest: 4, level: 1 });
});

test('TAL-3: a tally that comes late is dropped unanswered: what it says is in the later one', () => {
  const saw = toldSession(edda);
  const late = saw.make({ dose: POINT });
  saw.tell({ dose: 2 * POINT });
  const acks = edda.sent('ack').length;
  saw.hear(late);
  expect(edda.refused).toEqual(['replayed']);
  expect(edda.sent('ack')).toHaveLength(acks);
  expect(edda.dose).toBe(2 * POINT);
});

test('a report is acknowledged with the next tally, whichever of the two arrives first', () => {
  const saw = toldSession(edda);
  saw.report(2);
  saw.tell({ sequence: 3 });
  expect(edda.sent('ack').at(-1)).toMatchObject({ highest: 3, highestReport: 2 });
  saw.tell({ sequence: 5 });
  saw.report(4);
  saw.tell({ sequence: 6 });
  expect(edda.sent('ack').at(-1)).toMatchObject({ highest: 6, highestReport: 4 });
});

test('a report that comes late does not put an older one in its place', () => {
  const saw = toldSession(edda);
  saw.report(4, { shortBursts: 2 });
  saw.report(3, { shortBursts: 1 });
  expect(edda.refused).toEqual(['replayed']);
  saw.tell({ sequence: 5 });
  expect(edda.sent('ack').at(-1)).toMatchObject({ highestReport: 4 });
});

test('PAI-1: the counter is answered its accept again until its first tally', () => {
  const saw = new ToldSession(edda, 1, 7);
  saw.accept();
  expect(edda.sent('accept')).toHaveLength(2);
  expect(new Set(edda.sentBytes('accept').map((bytes) => bytes.join())).size).toBe(1);
  saw.tell();
  saw.accept();
  expect(edda.sent('accept')).toHaveLength(2);
});

test('PAI-1: the counter’s accept without a tap keeps no key', () => {
  const saw = new ToldCounter(edda, 1, 7);
  saw.touch();
  saw.answer();
  saw.reveal();
  saw.accept();
  expect(edda.sent('accept')).toEqual([]);
  edda.tap();
  expect(edda.sent('accept')).toEqual([]);
});

test('a session whose link has the name of a delivered one is a session of its own', () => {
  const first = toldSession(edda, 1, 7, 1);
  first.tell({ dose: 5 * POINT, flags: ['sealed'] });
  toldSession(edda, 1, 7, 2).tell({ dose: 3 * POINT });
  expect(edda.dose).toBe(8 * POINT);
  expect(edda.ledger.at(-1)).toMatchObject({ session: 2, dose: 3 * POINT });
});

test('two counters whose links have the same name by chance are told apart by their keys', () => {
  const saw = toldSession(edda, 1, 7);
  const drill = toldSession(edda, 2, 7);
  saw.tell({ dose: 2 * POINT });
  drill.tell({ dose: 3 * POINT });
  expect(edda.refused).toEqual([]);
  expect(edda.ledger.map(({ counter, dose }) => [counter, dose / POINT])).toEqual([
    [1, 2],
    [2, 3],
  ]);
});
