// TAL-3, TAL-4, TAL-5, PAI-1 at the wearable: which frames it takes, what it answers, and what changes nothing.
import { beforeEach, expect, test } from 'vitest';
import type { Message } from '../../src/link/messages.js';
import { POINT } from '../rig/levels.js';
import { Site } from '../rig/site.js';
import { ToldSession, toldSession } from '../rig/told-session.js';
import { WearableRig } from '../rig/wearable-rig.js';

let site: Site;
let edda: WearableRig;
beforeEach(() => {
  site = new Site();
  edda = new WearableRig(site, 11);
});

test('every tally is answered, a doubled one again, with rising sequences', () => {
  const saw = toldSession(edda);
  const tally = saw.tell({ dose: POINT });
  edda.hear(tally, saw.counter);
  const acks = edda.sent('ack');
  expect(acks.map(({ sequence, highest }) => [sequence, highest])).toEqual([
    [1, 1],
    [2, 2],
    [3, 2],
  ]);
  expect(acks.map(({ highestReport }) => highestReport)).toEqual([0, 0, 0]);
  const sums = { dose: POINT, triggerWindows: 0, unratedWindows: 0 };
  expect(edda.ledger).toMatchObject([{ counter: 1, session: 1, shift: 1, total: POINT, ...sums }]);
});

test('a late tally is answered with the highest sequence seen', () => {
  const saw = toldSession(edda);
  const late = saw.make({ dose: POINT });
  saw.tell({ dose: 2 * POINT });
  edda.hear(late, saw.counter);
  expect(edda.sent('ack').at(-1)).toMatchObject({ link: saw.link, highest: 3 });
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

test('TAL-4: foreign frames, and frames that a wearable has no use for, change nothing and are told of', () => {
  const saw = toldSession(edda);
  const tally = saw.tell({ dose: POINT });
  const [acks, shown] = [edda.sent('ack').length, edda.shown.length];
  const stray: readonly (readonly [Message, number, string])[] = [
    [{ ...tally, dose: 9 * POINT, sequence: 9, link: tally.link + 1 }, 1, 'foreign'],
    [{ ...tally, dose: 9 * POINT, sequence: 9 }, 2, 'foreign'],
    [{ frame: 'accept', counter: 1, wearable: 12, link: tally.link }, 1, 'foreign'],
    [{ frame: 'answer', counter: 1, wearable: 11, nonce: 1, link: 5, session: 3 }, 1, 'foreign'],
    [{ frame: 'refuse', counter: 1, wearable: 11, reason: 'busy' }, 1, 'foreign'],
    [{ frame: 'hello', counter: 1, wearable: 11, nonce: 4 }, 1, 'unexpected'],
    [edda.sent('ack').at(-1)!, 1, 'unexpected'],
  ];
  for (const [message, from] of stray) edda.hear(message, from);
  expect(edda.refused.map(({ reason }) => reason)).toEqual(stray.map(([, , reason]) => reason));
  expect(edda.sent('ack')).toHaveLength(acks);
  expect(edda.shown).toHaveLength(shown);
  expect(edda.dose).toBe(POINT);
});

test('an accept of nobody in particular is left alone', () => {
  edda.hear({ frame: 'accept', counter: 1, wearable: 11, link: 7 }, 1);
  expect(site.frames).toEqual([]);
});

test('PAI-1: the counter is answered its accept again until its first tally, and only for the pairing that was accepted', () => {
  const saw = new ToldSession(edda, 1, 7);
  edda.hear({ frame: 'accept', counter: 1, wearable: 11, link: 7 }, 1);
  edda.hear({ frame: 'accept', counter: 1, wearable: 11, link: 8 }, 1);
  expect(edda.sent('accept')).toHaveLength(2);
  saw.tell();
  edda.hear({ frame: 'accept', counter: 1, wearable: 11, link: 7 }, 1);
  expect(edda.sent('accept')).toHaveLength(2);
});

test('PAI-1: the counter’s accept without a tap keeps no key', () => {
  edda.touch(1);
  edda.hear({ frame: 'answer', counter: 1, wearable: 11, nonce: 1, link: 7, session: 1 }, 1);
  edda.hear({ frame: 'accept', counter: 1, wearable: 11, link: 7 }, 1);
  expect(edda.sent('accept')).toEqual([]);
  edda.tap();
  expect(edda.sent('accept')).toEqual([]);
});

test('PAI-1: a hello is said again every second until it is answered', () => {
  edda.touch(1);
  site.runFor(3_500);
  expect(edda.sent('hello')).toHaveLength(4);
  expect(new Set(edda.sent('hello').map(({ nonce }) => nonce)).size).toBe(1);
  edda.hear({ frame: 'answer', counter: 1, wearable: 11, nonce: 1, link: 7, session: 1 }, 1);
  site.runFor(3_500);
  expect(edda.sent('hello')).toHaveLength(4);
});

test('a session whose link has the name of a delivered one is a session of its own', () => {
  const first = toldSession(edda, 1, 7, 1);
  first.tell({ dose: 5 * POINT, flags: ['sealed'] });
  toldSession(edda, 1, 7, 2).tell({ dose: 3 * POINT });
  expect(edda.dose).toBe(8 * POINT);
  expect(edda.ledger.at(-1)).toMatchObject({ session: 2, dose: 3 * POINT });
});
