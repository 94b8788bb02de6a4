// WEA-3: six hours in which no paired tool ran close a shift; sixteen hours mark it.
import { beforeEach, expect, test } from 'vitest';
import { HOUR } from '../rig/day.js';
import { Site } from '../rig/site.js';
import { toldSession } from '../rig/told-session.js';
import { WearableRig } from '../rig/wearable-rig.js';

let site: Site;
let edda: WearableRig;
beforeEach(() => {
  site = new Site();
  edda = new WearableRig(site, 11);
});

function shifts(): string[] {
  return edda.shifts.map(({ what }) => what);
}

test('it ends after 6 h in which no paired tool ran, to the millisecond', () => {
  toldSession(edda);
  site.runFor(6 * HOUR - 1);
  expect(shifts()).toEqual(['opened 1']);
  site.runFor(1);
  expect(shifts()).toEqual(['opened 1', 'closed 1']);
});

test('the 6 h begin when the last paired tool is heard to stop', () => {
  const saw = toldSession(edda, 1);
  const drill = toldSession(edda, 2);
  saw.tell({ flags: ['running'] });
  site.runFor(10_000);
  drill.tell({ flags: ['running'] });
  saw.tell({});
  site.runFor(10_000);
  drill.tell({});
  site.runFor(6 * HOUR - 1);
  expect(shifts()).toEqual(['opened 1']);
  site.runFor(1);
  expect(shifts()).toEqual(['opened 1', 'closed 1']);
});

test('a tool that runs on keeps the shift open for longer than 6 h', () => {
  const saw = toldSession(edda);
  for (let atMs = 0; atMs < 7 * HOUR; atMs += 10_000) {
    saw.tell({ flags: ['running'] });
    site.runFor(10_000);
  }
  expect(shifts()).toEqual(['opened 1']);
});

test('a further pairing keeps it open: who pairs is about to work', () => {
  toldSession(edda, 1);
  site.runFor(5 * HOUR);
  toldSession(edda, 2);
  site.runFor(5 * HOUR);
  expect(shifts()).toEqual(['opened 1']);
});

test('late news of an older shift does not keep the present one open', () => {
  const saw = toldSession(edda, 1);
  edda.close();
  toldSession(edda, 2);
  site.runFor(5 * HOUR);
  saw.tell({ dose: 5, windows: 7, flags: ['sealed'] });
  site.runFor(HOUR);
  expect(shifts()).toEqual(['opened 1', 'closed 1', 'opened 2', 'closed 2']);
});

test('a shift of 16 h is marked, though a tool ran all the time, and no earlier', () => {
  const saw = toldSession(edda);
  const openedMs = site.nowMs;
  while (site.nowMs < openedMs + 16 * HOUR - 10_000) {
    saw.tell({ flags: ['running'] });
    site.runFor(10_000);
  }
  site.runFor(9_999);
  expect(edda.display.icons).not.toContain('long');
  site.runFor(1);
  expect(shifts()).toEqual(['opened 1', 'long 1']);
  expect(edda.display.icons).toContain('long');
  edda.close();
  expect(edda.observe()[0]).toMatchObject({ long: true });
  toldSession(edda, 2);
  expect(edda.display.icons).not.toContain('long');
});
