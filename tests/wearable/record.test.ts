// WEA-4: the record of a wearable says what its shifts and sessions are, and a damaged one is known.
import { beforeEach, expect, test } from 'vitest';
import { readWearableRecord, type WearableRecord } from '../../src/wearable/record.js';
import { REST_MM, WORK_MM } from '../rig/counter-rig.js';
import { away, newCrew, SAW_SECOND } from '../rig/crew.js';
import { eachByteChanged, eachByteLostOrAdded, writtenWith } from '../rig/damage.js';
import { HOUR } from '../rig/day.js';
import { pairUp } from '../rig/pair-up.js';
import { toldSession } from '../rig/told-session.js';

/** Where the body begins: with how many shifts, and how many sessions. */
const BODY_AT = 10;

let { site, saw, edda } = newCrew();
beforeEach(() => {
  ({ site, saw, edda } = newCrew());
});

function read(record: Uint8Array): WearableRecord {
  const contents = readWearableRecord(record);
  if (typeof contents === 'string') throw new Error(contents);
  return contents;
}

/** 20 s and a short burst in the first shift, 10 s that are not yet sealed in the second. */
function twoShifts(): Uint8Array {
  pairUp(saw, edda);
  saw.work(20_000);
  saw.windows(WORK_MM, REST_MM);
  site.runFor(2 * HOUR);
  edda.close();
  site.runFor(2 * HOUR);
  pairUp(saw, edda);
  saw.work(10_000);
  site.air = away(edda);
  edda.readout();
  return edda.records.at(-1)!;
}

test('the record has every shift that is kept, and its sessions', () => {
  expect(read(twoShifts())).toEqual({
    device: edda.id,
    shifts: [
      {
        shift: 1,
        dose: 20 * SAW_SECOND,
        triggerWindows: 200,
        unratedWindows: 0,
        open: false,
        long: false,
        incomplete: ['short bursts'],
      },
      {
        shift: 2,
        dose: 10 * SAW_SECOND,
        triggerWindows: 100,
        unratedWindows: 0,
        open: false,
        long: false,
        incomplete: [],
      },
    ],
    sessions: [
      {
        shift: 1,
        counter: saw.id,
        session: 1,
        dose: 20 * SAW_SECOND,
        triggerWindows: 200,
        unratedWindows: 0,
        shortBursts: 1,
        powerLosses: 0,
        sealed: true,
      },
      {
        shift: 2,
        counter: saw.id,
        session: 2,
        dose: 10 * SAW_SECOND,
        triggerWindows: 100,
        unratedWindows: 0,
        shortBursts: 0,
        powerLosses: 0,
        sealed: false,
      },
    ],
  });
});

test('a wearable that was never paired has a record too, with nothing in it', () => {
  edda.readout();
  expect(read(edda.records.at(-1)!)).toEqual({ device: edda.id, shifts: [], sessions: [] });
});

test('thirty shifts are kept, and the session of an older one still says of which it was', () => {
  for (let shift = 1; shift <= 31; shift++) {
    toldSession(edda, 2, shift).tell({ dose: shift * SAW_SECOND, windows: 10 * shift });
    edda.close();
  }
  edda.readout();
  const { shifts, sessions } = read(edda.records.at(-1)!);
  expect(shifts.map(({ shift }) => shift)).toEqual(Array.from({ length: 30 }, (_, index) => index + 2));
  expect(shifts.at(-1)).toMatchObject({ dose: 31 * SAW_SECOND, triggerWindows: 310 });
  expect(sessions.filter(({ shift }) => shift === 1)).toHaveLength(1);
});

test('a shift of more than 16 h says so', () => {
  const saw2 = toldSession(edda, 2);
  saw2.tell();
  for (let hours = 0; hours < 17; hours += 5) {
    site.runFor(5 * HOUR);
    saw2.tell({ dose: (hours + 1) * SAW_SECOND, windows: (hours + 1) * 10 });
  }
  edda.readout();
  expect(read(edda.records.at(-1)!).shifts).toMatchObject([{ shift: 1, long: true }]);
});

test('a record with any byte changed, lost or added is refused, with a sentence', () => {
  const record = twoShifts();
  for (const damaged of [...eachByteChanged(record), ...eachByteLostOrAdded(record)]) {
    expect(readWearableRecord(damaged)).toMatch(/^(it|its|a|the|this) .+[a-z0-9]$/);
  }
});

test("contents that do not fit what they count are refused, and so is a counter's record", () => {
  const record = twoShifts();
  // 4 bytes of counts, 19 a shift, 28 a session.
  expect(readWearableRecord(writtenWith(record, BODY_AT + 1, 3))).toBe(
    'its contents take 117 bytes as it counts them, and it has 98',
  );
  expect(readWearableRecord(writtenWith(record, BODY_AT + 3, 1))).toBe(
    'its contents take 70 bytes as it counts them, and it has 98',
  );
  saw.readout();
  expect(readWearableRecord(saw.records.at(-1)!)).toBe('this is no record of a wearable');
});
