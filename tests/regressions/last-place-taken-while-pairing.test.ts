// A wearable had room for one more counter because a key could be forgotten; that key was confirmed by its first tally while the
// pairing was open, and keeping the new one threw (TAL-4: nothing can crash a device).
import { expect, test } from 'vitest';
import { Site } from '../rig/site.js';
import { ToldCounter } from '../rig/told-counter.js';
import { ToldSession, toldSession } from '../rig/told-session.js';
import { WearableRig } from '../rig/wearable-rig.js';

test('a pairing for which there is no place any more comes to nothing', () => {
  const edda = new WearableRig(new Site(), 99);
  for (let counter = 1; counter <= 31; counter++) toldSession(edda, counter);
  const waiting = new ToldSession(edda, 32, 700);
  const drill = new ToldCounter(edda, 33, 5);
  drill.touch();
  drill.answer();
  drill.reveal();
  edda.tap();
  waiting.tell({ dose: 1 });
  drill.accept();
  expect(edda.sent('accept').map(({ counter }) => counter)).not.toContain(33);
  edda.site.runFor(30_000);
  expect(edda.display.screen).toBe('points');
  expect(edda.dose).toBe(1);
});
