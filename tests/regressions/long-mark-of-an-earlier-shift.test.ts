// After a power failure a wearable plans the mark of a shift that will have lasted 16 h by then. That shift was closed, another
// one opened, and the mark came upon the new one (WEA-3).
import { expect, test } from 'vitest';
import { HOUR } from '../rig/day.js';
import { Site } from '../rig/site.js';
import { toldSession } from '../rig/told-session.js';
import { WearableRig } from '../rig/wearable-rig.js';

test('the mark of 16 h comes upon the shift that it was planned for, or upon none', () => {
  const site = new Site();
  const edda = new WearableRig(site, 11);
  const saw = toldSession(edda, 1);
  for (let told = 0; told < 10; told++) {
    site.runFor(HOUR);
    saw.tell({ dose: told + 1, windows: told + 1 });
  }
  edda.cutPower();
  edda.powerUp();
  site.runFor(HOUR);
  edda.close();
  toldSession(edda, 2);
  site.runFor(5 * HOUR);
  expect(edda.observe().map(({ shift, long }) => [shift, long])).toEqual([
    [1, false],
    [2, false],
  ]);
});
