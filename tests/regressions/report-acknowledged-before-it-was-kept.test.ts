// A report came while a page was erased, and the last tally of its sealed session was told again: the acknowledgement of both left
// before the journal held the report. The counter let the session go, power failed, and the short bursts were gone.
import { expect, it } from 'vitest';
import { readWearableRecord } from '../../src/wearable/record.js';
import { Site } from '../rig/site.js';
import { toldSession } from '../rig/told-session.js';
import { WearableRig } from '../rig/wearable-rig.js';
import { wornFlash } from '../rig/worn-flash.js';

const SHORT_BURSTS = 7;

it('no report is acknowledged that a power failure can still take', () => {
  let erasing = 0;
  for (let filled = 156; filled < 320; filled += 4) {
    const site = new Site();
    const wearable = new WearableRig(site, 11, undefined, wornFlash(filled));
    const saw = toldSession(wearable, 1);
    const drill = toldSession(wearable, 2);
    site.runFor(1000);
    const last = saw.tell({ sequence: 6, dose: 4, flags: ['sealed', 'shortBursts'] });
    drill.tell({ dose: 1 });
    if (!wearable.flash.busy()) continue;
    erasing += 1;
    const before = wearable.sent('ack').length;
    saw.report(5, { shortBursts: SHORT_BURSTS });
    saw.hear(last);
    const acknowledged = wearable
      .sent('ack')
      .slice(before)
      .some(({ highestReport }) => highestReport === 5);
    wearable.cutPower();
    wearable.powerUp();
    wearable.readout();
    const record = readWearableRecord(wearable.records.at(-1)!);
    if (typeof record === 'string') throw new Error(record);
    const kept = record.sessions.find(({ counter }) => counter === 1)?.shortBursts === SHORT_BURSTS;
    expect({ acknowledged, kept }).toEqual({ acknowledged: kept, kept });
  }
  expect(erasing).toBeGreaterThan(3);
}, 60_000);
