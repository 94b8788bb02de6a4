// A wearable full of sessions forgot a key that its counter had never used, and noted its session as one whose dose is in the shift.
// The counter gave that number to the next pairing; after a power failure its dose was taken to be counted already, and was gone.
import { expect, test } from 'vitest';
import { withSessions } from '../rig/many-sessions.js';
import { ToldSession } from '../rig/told-session.js';

test('a session with the number of a forgotten key keeps its dose', () => {
  const { edda } = withSessions(0, 255);
  new ToldSession(edda, 1, 2000, 256);
  new ToldSession(edda, 1, 2001, 256).tell({ dose: 7 });
  expect(edda.dose).toBe(255 + 7);
  edda.cutPower();
  edda.powerUp();
  expect(edda.dose).toBe(255 + 7);
});
