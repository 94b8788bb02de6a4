// An acknowledgement that was overtaken, or came twice, put an older alert level back on the counter's display and kept it there
// for another 90 s (TAL-5, TAL-4).
import { expect, test } from 'vitest';
import { CounterRig } from '../rig/counter-rig.js';
import { Site } from '../rig/site.js';
import { ToldWearable } from '../rig/told-wearable.js';

test('only a newer acknowledgement changes what the counter shows, or keeps it fresh', () => {
  const site = new Site();
  const saw = new CounterRig(site, 1, 50);
  const edda = new ToldWearable(saw, 11);
  edda.pair();
  const notice = edda.acknowledgement('notice', 200);
  const action = edda.acknowledgement('action', 3000);
  edda.seal(action);
  edda.seal(notice);
  expect(saw.display).toMatchObject({ second: 360, icons: ['level-action'] });
  site.runFor(60_000);
  edda.seal(action);
  site.runFor(30_000);
  expect(saw.display).toMatchObject({ second: -1, icons: [] });
  expect(saw.refused).toEqual(['replayed', 'replayed']);
});
