// A wearable forgets a session in several writes. Where power failed between them its sums were left in the journal without
// their key; the next session that got the same place was charged them as its own (KEP-1: nothing is counted twice).
import { expect, test } from 'vitest';
import { withSessions } from '../rig/many-sessions.js';
import { ToldCounter } from '../rig/told-counter.js';
import { ToldSession } from '../rig/told-session.js';

function atAccept(): { edda: ReturnType<typeof withSessions>['edda']; next: ToldCounter } {
  const { edda } = withSessions(200);
  const next = new ToldCounter(edda, 1, 2000, 257);
  next.touch();
  next.answer();
  next.reveal();
  edda.tap();
  return { edda, next };
}

test('a session gets nothing of the one that had its place before, wherever power fails while that is forgotten', () => {
  const uncut = atAccept();
  const before = uncut.edda.written.length;
  uncut.next.accept();
  const writes = uncut.edda.written.slice(before);
  // The shift, drops of key and sums, and the new key at least.
  expect(writes.length).toBeGreaterThanOrEqual(4);
  for (const [index] of writes.entries()) {
    const { edda, next } = atAccept();
    edda.flash.failAfter(writes.slice(0, index + 1).reduce((sum, length) => sum + length, 0));
    next.accept();
    if (edda.isOn) edda.cutPower();
    edda.powerUp();
    const doses = () => edda.observe().map(({ dose }) => dose);
    expect(doses()).toEqual([199, 57]);
    new ToldSession(edda, 1, 3000, 258);
    edda.cutPower();
    edda.powerUp();
    expect(doses()).toEqual([199, 57]);
  }
}, 60_000);
