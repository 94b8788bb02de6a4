// An acknowledgement that was overtaken, or came twice, put an older alert level back on the counter's display and kept it there
// for another 90 s (TAL-5, TAL-4).
import { expect, test } from 'vitest';
import type { Acknowledgement } from '../../src/link/messages.js';
import { CounterRig } from '../rig/counter-rig.js';
import { pairUp } from '../rig/pair-up.js';
import { Site } from '../rig/site.js';
import { WearableRig } from '../rig/wearable-rig.js';

test('only a newer acknowledgement changes what the counter shows, or keeps it fresh', () => {
  const site = new Site();
  const saw = new CounterRig(site, 1, 50);
  const edda = new WearableRig(site, 11);
  pairUp(saw, edda);
  site.air = () => [];
  const first = edda.sent('ack').at(-1)!;
  const notice: Acknowledgement = { ...first, sequence: 50, level: 1, leftTenths: 200 };
  const action: Acknowledgement = { ...first, sequence: 51, level: 2, leftTenths: 3000 };
  saw.hear(action, edda.id);
  saw.hear(notice, edda.id);
  expect(saw.display).toMatchObject({ second: 360, icons: ['level-action'] });
  site.runFor(60_000);
  saw.hear(action, edda.id);
  site.runFor(30_000);
  expect(saw.display).toMatchObject({ second: -1, icons: [] });
  expect(saw.refused.map(({ reason }) => reason)).toEqual(['replayed', 'replayed']);
});
