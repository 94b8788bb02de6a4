// Where the wearable refused, the counter went back to rest without a word; and where a start of the tool aborted a pairing, the
// wearable went on asking for a tap (PAI-1: refused, said).
import { expect, test } from 'vitest';
import { CounterRig, WORK_MM } from '../rig/counter-rig.js';
import { touch } from '../rig/pair-up.js';
import { Site } from '../rig/site.js';
import { WearableRig } from '../rig/wearable-rig.js';

test('both displays say what came of it', () => {
  const site = new Site();
  const saw = new CounterRig(site, 1, 50);
  const drill = new CounterRig(site, 2, 50);
  const edda = new WearableRig(site, 11);
  touch(saw, edda);
  site.runFor(100);
  drill.touch(edda.id);
  edda.touch(drill.id);
  site.runFor(100);
  expect(drill.display.screen).toBe('refused-busy');
  saw.level(WORK_MM);
  site.runFor(300);
  expect(edda.display.screen).toBe('refused-running');
});
