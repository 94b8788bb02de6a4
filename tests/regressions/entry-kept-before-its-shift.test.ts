// While a page was erased, one tally opened a shift, a second came for it, and a third marked it incomplete: the shift's record
// moved behind the entries. Power failed between them, and the shift that an entry was of was none: its dose was on no sum.
import { expect, it } from 'vitest';
import { Site } from '../rig/site.js';
import { ToldSession, toldSession } from '../rig/told-session.js';
import { WearableRig } from '../rig/wearable-rig.js';
import { wornFlash } from '../rig/worn-flash.js';

const SAW_U = 500_000;
const DRILL_U = 300_000;

it('no dose is lost of a shift that opened while a page was erased', () => {
  let cuts = 0;
  for (let filled = 156; filled < 400; filled += 8) {
    for (let step = 0; step < 90; step += 6) {
      const site = new Site();
      const wearable = new WearableRig(site, 11, undefined, wornFlash(filled));
      const old = toldSession(wearable, 3);
      wearable.close();
      const saw = new ToldSession(wearable, 1, 101);
      const drill = new ToldSession(wearable, 2, 102);
      site.runFor(1000);
      old.tell({ dose: 1 });
      if (!wearable.flash.busy()) break;
      const tell = () => {
        saw.tell({ dose: SAW_U });
        drill.tell({ dose: DRILL_U, flags: ['powerLost'] });
      };
      tell();
      wearable.flash.failAfter(step);
      site.runFor(200);
      if (wearable.isOn) continue;
      cuts += 1;
      wearable.powerUp();
      tell();
      site.runFor(1000);
      expect(wearable.observe().find(({ shift }) => shift === 2)?.dose).toBe(SAW_U + DRILL_U);
    }
  }
  expect(cuts).toBeGreaterThan(20);
}, 60_000);
