// WEA-3, WEA-4, TRG-3, MAG-6: a shift opens with a pairing, ends by its wearer, and keeps what was paired in it.
import { beforeEach, expect, test } from 'vitest';
import { INCOMPLETE } from '../../src/wearable/state.js';
import { HOUR, MINUTE } from '../rig/day.js';
import { POINT } from '../rig/levels.js';
import { Site } from '../rig/site.js';
import { ToldSession, toldSession } from '../rig/told-session.js';
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

test('before the first pairing there is no shift', () => {
  expect(edda.display).toMatchObject({ screen: 'ready', value: -1, icons: [] });
  expect(edda.observe()).toEqual([]);
  edda.close();
  edda.readout();
  expect(shifts()).toEqual([]);
});

test('a shift opens with a pairing that the counter confirms, at no points', () => {
  const saw = new ToldSession(edda, 1, 7);
  expect(shifts()).toEqual([]);
  saw.tell();
  expect(shifts()).toEqual(['opened 1']);
  expect(edda.display).toMatchObject({ screen: 'points', value: 0 });
});

test('a second pairing joins the open shift', () => {
  toldSession(edda, 1).tell({ dose: 5 * POINT });
  toldSession(edda, 2).tell({ dose: 7 * POINT });
  expect(shifts()).toEqual(['opened 1']);
  expect(edda.display.value).toBe(12);
});

test.each(['close', 'readout'] as const)(
  'it ends by %s; its points stay on the display until the next opens',
  (end) => {
    const saw = toldSession(edda);
    saw.tell({ dose: 5 * POINT });
    edda[end]();
    expect(shifts()).toEqual(['opened 1', 'closed 1']);
    expect(edda.display).toMatchObject({ screen: 'closed', value: 5 });
    toldSession(edda, 2);
    expect(shifts()).toEqual(['opened 1', 'closed 1', 'opened 2']);
    expect(edda.display).toMatchObject({ screen: 'points', value: 0 });
  },
);

test('the counters of a closed shift are told so with the next acknowledgement, those of the open one are not', () => {
  const saw = toldSession(edda, 1);
  saw.tell();
  expect(edda.sent('ack').at(-1)!.closed).toBe(false);
  edda.close();
  saw.tell();
  expect(edda.sent('ack').at(-1)!.closed).toBe(true);
  const drill = toldSession(edda, 2);
  drill.tell();
  expect(edda.sent('ack').at(-1)!.closed).toBe(false);
  saw.tell();
  expect(edda.sent('ack').at(-1)!.closed).toBe(true);
});

test('dose goes to the shift in which its session was paired, however late it comes', () => {
  const saw = toldSession(edda, 1);
  saw.tell({ dose: 5 * POINT });
  edda.close();
  const drill = toldSession(edda, 2);
  drill.tell({ dose: 1 * POINT });
  site.runFor(30 * HOUR);
  saw.tell({ dose: 50 * POINT, flags: ['sealed'] });
  expect(edda.observe().map(({ dose }) => dose / POINT)).toEqual([50, 1]);
  expect(edda.display.value).toBe(1);
});

test('a session paired in the shift, but heard of only after its end, belongs to it', () => {
  toldSession(edda, 1);
  const drill = new ToldSession(edda, 2, 7);
  edda.close();
  drill.tell({ dose: 3 * POINT });
  expect(shifts()).toEqual(['opened 1', 'closed 1']);
  expect(edda.observe().map(({ dose }) => dose / POINT)).toEqual([3]);
  expect(edda.sent('ack').at(-1)!.closed).toBe(true);
});

test('short bursts and a failing sensor mark the shift of their session incomplete, once each', () => {
  const saw = toldSession(edda, 1);
  saw.tell({ flags: ['shortBursts'] });
  expect(edda.display.icons).toEqual(['incomplete']);
  saw.tell({ flags: ['shortBursts', 'sensorFault'] });
  saw.tell({ flags: ['shortBursts'] });
  expect(edda.incomplete).toEqual([
    { shift: 1, counter: 1, why: 'short bursts' },
    { shift: 1, counter: 1, why: 'sensor fault' },
  ]);
  edda.close();
  toldSession(edda, 2);
  expect(edda.display.icons).toEqual([]);
  saw.tell({ flags: ['saturated', 'sealed'] });
  const { 'short bursts': bursts, 'sensor fault': sensor, saturated } = INCOMPLETE;
  expect(edda.observe().map(({ incomplete }) => incomplete)).toEqual([bursts | sensor | saturated, 0]);
});

test('a flag is remembered: the last of it marks nothing twice, and takes nothing back', () => {
  const saw = toldSession(edda);
  saw.tell({ flags: ['powerLost'] });
  saw.tell({ flags: [] });
  saw.tell({ flags: ['powerLost'] });
  expect(edda.incomplete).toHaveLength(1);
  expect(edda.display.icons).toContain('incomplete');
});

test('MAG-6: unrated time is shown as such, and never as zero points', () => {
  const saw = toldSession(edda);
  saw.tell({ windows: 600, unrated: 600 });
  expect(edda.display).toMatchObject({ screen: 'points', value: -1, icons: ['unrated'] });
  saw.tell({ windows: 700, unrated: 600, dose: POINT - 1 });
  expect(edda.display.value).toBe(-1);
  saw.tell({ windows: 800, unrated: 600, dose: POINT });
  expect(edda.display).toMatchObject({ value: 1, icons: ['unrated'] });
  expect(edda.observe()[0]).toMatchObject({ unratedWindows: 600 });
});

test('WEA-4: the last 30 shifts are kept; what comes for an older one changes none of them', () => {
  const first = toldSession(edda, 1, 1000);
  first.tell({ dose: 1 });
  for (let shift = 2; shift <= 31; shift++) {
    edda.close();
    toldSession(edda, 2, 1000 + shift, shift).tell({ dose: shift });
  }
  expect(edda.observe().map(({ shift }) => shift)).toEqual(Array.from({ length: 30 }, (_, index) => index + 2));
  first.tell({ dose: 99 * POINT, flags: ['sealed', 'shortBursts'] });
  expect(edda.incomplete).toEqual([]);
  expect(edda.observe().map(({ dose }) => dose)).toEqual(Array.from({ length: 30 }, (_, index) => index + 2));
  site.runFor(MINUTE);
  expect(edda.alerts).toEqual([]);
});
