// PAI-5: 32 sessions fill the store, the open one counted; a pairing is refused then, and none is forgotten.
import { expect, test } from 'vitest';
import { newCrew, SAW_SECOND } from '../rig/crew.js';
import { HOUR, MINUTE } from '../rig/day.js';
import { pairUp, touch } from '../rig/pair-up.js';
import { WearableRig } from '../rig/wearable-rig.js';

test('PAI-5: 32 sessions are kept, the next pairing is refused and shown, and nothing is forgotten', () => {
  const { site, saw } = newCrew();
  const crew = Array.from({ length: 33 }, (_, index) => new WearableRig(site, 100 + index));
  let heard = -1;
  site.air = ({ from, to }) => ([from, to].some((id) => id === heard) ? [5] : []);
  for (const wearable of crew.slice(0, 32)) {
    heard = wearable.id;
    pairUp(saw, wearable);
    heard = -1;
    saw.work(1_000);
  }
  expect(saw.sessions.filter((what) => what.startsWith('sealed'))).toHaveLength(31);
  expect(saw.display.icons).toContain('full');

  heard = crew[32]!.id;
  touch(saw, crew[32]!);
  site.runFor(100);
  expect([saw.display.screen, crew[32]!.display.screen]).toEqual(['refused-full', 'refused-full']);
  site.runFor(10_000);
  expect(saw.observe()).toMatchObject({ session: 32, dose: SAW_SECOND });

  // The open session has its place among them: it can end without one being forgotten, or one too many kept.
  heard = crew[31]!.id;
  site.runFor(MINUTE);
  crew[31]!.close();
  heard = -1;
  site.runFor(6 * HOUR);
  expect(saw.observe().session).toBe(0);
  expect(saw.sessions.filter((what) => what.startsWith('sealed'))).toHaveLength(32);

  site.air = () => [5];
  site.runFor(2 * MINUTE);
  expect(saw.sessions.filter((what) => what.startsWith('delivered'))).toHaveLength(32);
  expect(saw.display.icons).not.toContain('full');
  expect(crew.map(({ dose }) => dose)).toEqual([...crew.slice(1).map(() => SAW_SECOND), 0]);
  pairUp(saw, crew[32]!);
  expect(saw.observe().session).toBe(33);
});
