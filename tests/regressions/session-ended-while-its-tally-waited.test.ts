// A tally was due during an erase and waited for its end; before that the session was closed. When the erase was over the counter
// threw, as there was no session left to tell of (KEP-5, TAL-4: nothing can crash a device).
import { expect, test } from 'vitest';
import { CounterRig, WORK_MM } from '../rig/counter-rig.js';
import { Site } from '../rig/site.js';
import { ToldWearable } from '../rig/told-wearable.js';
import { wornFlash } from '../rig/worn-flash.js';

/** Flashes on some of which an erase begins when the first session is forgotten. */
const worn = Array.from({ length: 20 }, (_, made) => wornFlash(4 * made + 200));

test('a session that ends while its tally waits for an erase is told as it ended', () => {
  let waited = 0;
  for (const flash of worn) {
    const site = new Site();
    const saw = new CounterRig(site, 1, 50, structuredClone(flash));
    const carla = new ToldWearable(saw, 13);
    carla.pair();
    const { link } = carla.answer;
    const dora = new ToldWearable(saw, 14);
    dora.pair();
    site.runTo(1_000);
    saw.level(WORK_MM);
    site.runTo(1_000 + 200 + 4_950);
    carla.acknowledge('none', 0, { link, highest: 9, highestReport: 9 });
    site.runFor(60);
    if (saw.flash.busy()) waited += 1;
    dora.acknowledge('none', 0, { closed: true });
    site.runFor(61_000);
    expect(saw.sessions.at(-1)).toBe('sealed 2');
    expect(saw.sent('tally').at(-1)).toMatchObject({ triggerWindows: 52 });
  }
  expect(waited).toBeGreaterThan(0);
});
