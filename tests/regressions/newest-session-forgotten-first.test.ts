// After a restart a wearable took the sessions in the order of their numbers, each counter's own: the first session of a new
// counter, sealed a moment ago, was forgotten before the hundredth of an old one, and its dose was told in vain for ever.
import { expect, it } from 'vitest';
import { Site } from '../rig/site.js';
import { toldSession } from '../rig/told-session.js';
import { WearableRig } from '../rig/wearable-rig.js';

const MOST_SESSIONS = 256;
const COUNTERS = 10;

it('the oldest session makes room, after a restart too', () => {
  const site = new Site();
  const wearable = new WearableRig(site, 11);
  let link = 1;
  for (let made = 0; made < MOST_SESSIONS - 1; made++) {
    const session = 1000 + Math.floor(made / COUNTERS);
    toldSession(wearable, 1 + (made % COUNTERS), link++, session).tell({ flags: ['sealed'] });
    site.runFor(200);
  }
  wearable.close();
  const fresh = toldSession(wearable, 30, link++);
  const last = fresh.tell({ dose: 5, flags: ['sealed'] });
  wearable.close();
  site.runFor(1000);
  wearable.cutPower();
  wearable.powerUp();
  toldSession(wearable, 31, link++);
  fresh.hear(last);
  expect(wearable.refused).toEqual([]);
}, 60_000);
