// WEA-5: a wearable goes on after a power failure where it was: shifts, ledger, keys, alerts, marks. (At every byte of a write:
// kep-1-power-failures.test.ts.)
import { beforeEach, expect, test } from 'vitest';
import { readWearableRecord } from '../../src/wearable/record.js';
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

function losePower(forMs = 1_000): void {
  edda.cutPower();
  site.runFor(forMs);
  edda.powerUp();
}

function shifts(): string[] {
  return edda.shifts.map(({ what }) => what);
}

/** "action" is the first call of that level, "action again" a later one. */
function calls(): string[] {
  return edda.alerts.map(({ level, again }) => (again === 0 ? level : `${level} again`));
}

function recordOf(wearable: WearableRig) {
  wearable.readout();
  const record = readWearableRecord(wearable.records.at(-1)!);
  if (typeof record === 'string') throw new Error(record);
  return record;
}

test('before the first pairing there is nothing to go on with', () => {
  losePower();
  expect(edda.display).toMatchObject({ screen: 'ready', value: -1, icons: [] });
  expect(edda.observe()).toEqual([]);
  toldSession(edda);
  expect(shifts()).toEqual(['opened 1']);
});

test('the shift is open still, at its dose, and the keys of its sessions are good', () => {
  const saw = toldSession(edda, 1);
  const drill = toldSession(edda, 2);
  saw.tell({ dose: 5 * POINT, windows: 700, unrated: 100 });
  drill.tell({ dose: 3 * POINT });
  const [before] = edda.observe();
  losePower();
  const { openedMs: _, ...kept } = before!;
  expect(edda.observe()).toMatchObject([kept]);
  expect(edda.display).toMatchObject({ screen: 'points', value: 8 });
  saw.tell({ dose: 6 * POINT, windows: 800 });
  expect(edda.display.value).toBe(9);
  expect(edda.refused).toEqual([]);
  expect(shifts()).toEqual(['opened 1']);
});

test('a tally of before the failure is replayed, the last one is acknowledged again', () => {
  const saw = toldSession(edda);
  const older = saw.tell({ dose: 1 });
  const last = saw.tell({ dose: 2 });
  losePower();
  saw.hear(older);
  expect(edda.refused).toEqual(['replayed']);
  const acks = edda.sent('ack').length;
  saw.hear(last);
  expect(edda.sent('ack').slice(acks)).toMatchObject([{ highest: last.message.sequence }]);
  expect(edda.dose).toBe(2);
});

test('a closed shift stays closed, keeps its points on the display, and takes late dose; the next one is another', () => {
  const saw = toldSession(edda);
  saw.tell({ dose: 5 * POINT });
  edda.close();
  losePower();
  expect(edda.display).toMatchObject({ screen: 'closed', value: 5 });
  saw.tell({ dose: 6 * POINT, flags: ['sealed'] });
  expect(edda.sent('ack').at(-1)!.closed).toBe(true);
  toldSession(edda, 2).tell({ dose: POINT });
  expect(edda.observe().map(({ shift, dose }) => [shift, dose / POINT])).toEqual([
    [1, 6],
    [2, 1],
  ]);
  losePower();
  expect(edda.observe().map(({ dose }) => dose / POINT)).toEqual([6, 1]);
});

test('a key that no tally has confirmed outlasts it, charges nothing, and opens its shift with its first tally', () => {
  const saw = new ToldSession(edda, 1, 7);
  losePower();
  expect(edda.display.screen).toBe('ready');
  expect(edda.paired).toHaveLength(2);
  saw.tell({ dose: 3 });
  expect(shifts()).toEqual(['opened 1']);
  expect(edda.dose).toBe(3);
});

test('an alert that nobody acknowledged is called again at once, as one that was called before', () => {
  const saw = toldSession(edda);
  saw.tell({ dose: 100 * POINT });
  expect(calls()).toEqual(['notice', 'action']);
  losePower();
  expect(calls().slice(2)).toEqual(['action again']);
  expect(edda.display.icons).toContain('level-action');
  site.runFor(30_000);
  expect(calls().slice(2)).toEqual(['action again', 'action again']);
  edda.tap();
  losePower();
  site.runFor(10 * MINUTE);
  expect(calls()).toHaveLength(4);
});

test('an acknowledged alert is not called again; the next level is', () => {
  const saw = toldSession(edda);
  saw.tell({ dose: 80 * POINT });
  edda.tap();
  losePower();
  site.runFor(10 * MINUTE);
  saw.tell({ dose: 90 * POINT });
  expect(calls()).toEqual(['notice']);
  saw.tell({ dose: 100 * POINT });
  expect(calls()).toEqual(['notice', 'action']);
});

test('past the limit the call begins again when a paired tool is heard to run', () => {
  const saw = toldSession(edda);
  saw.tell({ dose: 401 * POINT });
  edda.tap();
  losePower();
  expect(calls()).toHaveLength(3);
  saw.tell({ flags: ['running'] });
  expect(calls().at(-1)).toBe('limit again');
});

test('TAL-6: whatever it knew of counters is old until they are heard', () => {
  const saw = toldSession(edda, 1);
  const drill = toldSession(edda, 2);
  drill.tell({ flags: ['sealed'] });
  new ToldSession(edda, 3, 9);
  losePower();
  expect(edda.marks.map(({ counter, on }) => [counter, on])).toEqual([[1, true]]);
  expect(edda.display.icons).toContain('stale');
  saw.tell();
  expect(edda.marks.at(-1)).toMatchObject({ counter: 1, on: false });
  expect(edda.display.icons).toEqual([]);
});

test('why a shift is incomplete, and what reports said, outlasts it', () => {
  const saw = toldSession(edda);
  saw.report(2, { shortBursts: 4, powerLosses: 3 });
  saw.tell({ sequence: 3, dose: 7, flags: ['shortBursts', 'powerLost'] });
  losePower();
  expect(edda.display.icons).toContain('incomplete');
  const {
    shifts: [shift],
    sessions: [session],
  } = recordOf(edda);
  expect(shift!.incomplete).toEqual(['short bursts', 'power lost']);
  expect(session).toMatchObject({ dose: 7, shortBursts: 4, powerLosses: 3 });
  saw.report(2, { shortBursts: 9 });
  expect(recordOf(edda).sessions[0]).toMatchObject({ shortBursts: 4 });
});

test('WEA-3: it is marked 16 h after it began all the same, to the minute in which it was heard of last', () => {
  const saw = toldSession(edda);
  for (let hour = 1; hour <= 10; hour++) {
    site.runFor(HOUR);
    saw.tell({ windows: hour, dose: hour });
  }
  losePower();
  for (let hour = 11; hour <= 15; hour++) {
    site.runFor(HOUR);
    saw.tell({ windows: hour, dose: hour });
  }
  expect(shifts()).toEqual(['opened 1']);
  site.runFor(HOUR);
  expect(shifts()).toEqual(['opened 1', 'long 1']);
  losePower();
  expect(edda.display.icons).toContain('long');
  expect(shifts()).toEqual(['opened 1', 'long 1']);
});

test('WEA-3: six idle hours after it is back end the shift', () => {
  toldSession(edda).tell({ dose: 1 });
  site.runFor(4 * HOUR);
  losePower();
  site.runFor(6 * HOUR - 1);
  expect(shifts()).toEqual(['opened 1']);
  site.runFor(1);
  expect(shifts()).toEqual(['opened 1', 'closed 1']);
});

test('PAI-1: a pairing that power broke off leaves both as before; the same two pair afterwards', () => {
  const saw = toldSession(edda, 1);
  saw.tell({ dose: 5 });
  edda.touch(2);
  losePower();
  expect(edda.display).toMatchObject({ screen: 'points', value: 0 });
  toldSession(edda, 2).tell({ dose: 6 });
  expect(edda.dose).toBe(11);
});

test('WEA-4: thirty shifts outlast it, each with its dose, and their record reads the same', () => {
  for (let shift = 1; shift <= 34; shift++) {
    toldSession(edda, 1, 100 + shift, shift).tell({ dose: shift, windows: 2 * shift, flags: ['sealed'] });
    edda.close();
  }
  const before = recordOf(edda);
  losePower();
  expect(recordOf(edda)).toEqual(before);
  expect(before.shifts.map(({ shift, dose }) => [shift, dose])).toEqual(
    Array.from({ length: 30 }, (_, index) => [index + 5, index + 5]),
  );
});

test('the record is what the state is', () => {
  const saw = toldSession(edda, 1, 7);
  saw.report(2, { shortBursts: 2, powerLosses: 1 });
  saw.tell({ sequence: 3, dose: 4 * POINT, windows: 90, unrated: 30, flags: ['saturated'] });
  new ToldSession(edda, 2, 8);
  const state = edda.observe()[0]!;
  const record = recordOf(edda);
  const { shift, dose, triggerWindows, unratedWindows } = state;
  expect(record).toEqual({
    device: edda.id,
    shifts: [{ shift, dose, triggerWindows, unratedWindows, open: false, long: false, incomplete: ['saturated'] }],
    sessions: [
      {
        shift: 1,
        counter: 1,
        session: 1,
        dose,
        triggerWindows,
        unratedWindows,
        shortBursts: 2,
        powerLosses: 1,
        sealed: false,
      },
    ],
  });
  expect(shifts()).toEqual(['opened 1', 'closed 1']);
});
