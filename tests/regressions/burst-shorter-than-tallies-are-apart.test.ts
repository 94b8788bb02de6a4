// A burst of less than 5 s is over when its first tally comes, so the wearable never heard that tool run; and closed the shift
// in the middle of a working day, six hours after it was opened (WEA-3).
import { expect, test } from 'vitest';
import { CounterRig } from '../rig/counter-rig.js';
import { HOUR, MINUTE } from '../rig/day.js';
import { pairUp } from '../rig/pair-up.js';
import { Site } from '../rig/site.js';
import { WearableRig } from '../rig/wearable-rig.js';

test('a day of short bursts is one shift', () => {
  const site = new Site();
  const saw = new CounterRig(site, 1, 50);
  const edda = new WearableRig(site, 11);
  pairUp(saw, edda);
  while (site.nowMs < 9 * HOUR) {
    saw.work(3_000);
    site.runFor(30 * MINUTE);
  }
  expect(edda.shifts.map(({ what }) => what)).toEqual(['opened 1']);
  expect(saw.sessions).toEqual(['opened 1']);
});
