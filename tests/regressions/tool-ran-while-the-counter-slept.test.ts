// While a counter sleeps on a poor cell it counts nothing (CEL-1). Its tool may run all the same, and the shift looked as if nothing
// were missing from it.
import { expect, test } from 'vitest';
import { newCrew } from '../rig/crew.js';
import { FULL_MV, POOR_MV } from '../rig/device-rig.js';
import { pairUp } from '../rig/pair-up.js';

test('the shift of a counter that has slept is marked incomplete', () => {
  const { site, saw, edda } = newCrew();
  pairUp(saw, edda);
  saw.work(10_000);
  expect(edda.display.icons).not.toContain('incomplete');
  saw.cell(POOR_MV);
  saw.work(20_000);
  saw.cell(FULL_MV);
  site.runFor(70_000);
  expect(saw.display.screen).toBe('ready');
  expect(edda.display.icons).toContain('incomplete');
});
