// A counter's accept was believed under any key whose link had the name of the pairing's: one of another counter, or one of an
// earlier session that was said again, had the wearable keep a key that its counter had not accepted (PAI-1).
import { beforeEach, expect, test } from 'vitest';
import { sealMessage } from '../../src/link/frames.js';
import { Site } from '../rig/site.js';
import { ToldCounter } from '../rig/told-counter.js';
import { toldSession } from '../rig/told-session.js';
import { WearableRig } from '../rig/wearable-rig.js';

const LINK = 7;

let edda: WearableRig;
beforeEach(() => {
  edda = new WearableRig(new Site(), 11);
});

/** The wearer has accepted, the counter has not; its link has the name of one that the wearable knows. */
function tapped(counter: number, session: number): ToldCounter {
  const told = new ToldCounter(edda, counter, LINK, session);
  told.touch();
  told.answer();
  told.reveal();
  edda.tap();
  return told;
}

test('an accept of another counter, whose link has the same name by chance', () => {
  const { secured } = toldSession(edda, 2, LINK);
  tapped(1, 1).accept(secured);
  const accept = { frame: 'accept', link: LINK, counter: 2, wearable: edda.id, by: 'counter' } as const;
  edda.hear(sealMessage(edda.site.cipher, secured, accept));
  expect(edda.paired.map(({ counter }) => counter)).toEqual([2]);
  expect(edda.refused).toEqual(['foreign']);
});

test('an accept of an earlier session of the counter, said again by somebody else', () => {
  const { secured } = toldSession(edda, 1, LINK, 1);
  const told = tapped(1, 2);
  told.accept(secured);
  expect(edda.paired.map(({ session }) => session)).toEqual([1]);
  told.accept();
  expect(edda.paired.map(({ session }) => session)).toEqual([1, 2]);
});
