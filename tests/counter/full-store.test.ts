// PAI-5: 32 sealed sessions fill the store; a pairing is refused then, and none is forgotten.
import { expect, test } from 'vitest';
import { newCrew, SAW_SECOND } from '../rig/crew.js';
import { HOUR, MINUTE } from '../rig/day.js';
import { pairUp, touch } from '../rig/pair-up.js';
import { WearableRig } from '../rig/wearable-rig.js';

test('PAI-5: 32 sealed sessions are kept, the next pairing is refused and shown, and nothing is forgotten', () => {
  const { site, saw } = newCrew();
  const crew = Array.from({ length: 34 }, (_, index) => new WearableRig(site, 100 + index));
  let heard = -1;
  site.air = ({ from, to }) => ([from, to].some((id) => id === heard) ? [5] : []);
  for (const wearable of crew.slice(0, 33)) {
    heard = wearable.id;
    pairUp(saw, wearable);
    heard = -1;
    saw.work(1_000);
  }
  expect(saw.sessions.filter((what) => what.startsWith('sealed'))).toHaveLength(32);
  expect(saw.display.icons).toContain('full');

  heard = crew[33]!.id;
  touch(saw, crew[33]!);
  site.runFor(100);
  expect([saw.display.screen, crew[33]!.display.screen]).toEqual(['refused-full', 'refused-full']);
  site.runFor(10_000);
  expect(saw.observe()).toMatchObject({ session: 33, dose: SAW_SECOND });

  // The open session has a place of its own: it can end without one being forgotten.
  heard = crew[32]!.id;
  site.runFor(MINUTE);
  crew[32]!.close();
  heard = -1;
  site.runFor(6 * HOUR);
  expect(saw.observe().session).toBe(0);

  site.air = () => [5];
  site.runFor(2 * MINUTE);
  expect(saw.sessions.filter((what) => what.startsWith('delivered'))).toHaveLength(33);
  expect(saw.display.icons).not.toContain('full');
  expect(crew.map(({ dose }) => dose)).toEqual([...crew.slice(1).map(() => SAW_SECOND), 0]);
  pairUp(saw, crew[33]!);
  expect(saw.observe().session).toBe(34);
});
