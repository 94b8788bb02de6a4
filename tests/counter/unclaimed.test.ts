// PAI-4: dose outside any session.
import { beforeEach, expect, test } from 'vitest';
import { TALLY_FLAGS } from '../../src/link/messages.js';
import { CounterRig } from '../rig/counter-rig.js';
import { newCrew, SAW_SECOND } from '../rig/crew.js';
import { pairUp } from '../rig/pair-up.js';

let { site, saw, edda } = newCrew();
beforeEach(() => {
  ({ site, saw, edda } = newCrew());
});

test('PAI-4: dose outside any session is counted, shown, reported to whoever pairs, and charged to nobody', () => {
  saw.work(10_000);
  expect(saw.observe()).toMatchObject({ session: 0, dose: 10 * SAW_SECOND });
  expect(saw.display.icons).toContain('unclaimed');
  pairUp(saw, edda);
  saw.work(2_000);
  expect(edda.dose).toBe(2 * SAW_SECOND);
  expect(saw.sent('report').at(-1)).toMatchObject({
    shortBursts: 0,
    powerLosses: 0,
    unclaimedDose: 10 * SAW_SECOND,
    unclaimedWindows: 100,
  });
  expect(saw.sent('tally').at(-1)!.flags & TALLY_FLAGS.unclaimed).toBe(TALLY_FLAGS.unclaimed);
  expect(saw.display.icons).toContain('unclaimed');
});

test('PAI-4: unrated time outside any session is unclaimed too', () => {
  saw = new CounterRig(site, 2, 0);
  saw.work(10_000);
  pairUp(saw, edda);
  expect(saw.sent('report').at(-1)).toMatchObject({ unclaimedDose: 0, unclaimedWindows: 100 });
  expect(edda.dose).toBe(0);
});
