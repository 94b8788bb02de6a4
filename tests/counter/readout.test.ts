// PAI-7: what a lost wearable never acknowledged is read out of the counter, listed as undelivered, and let go of.
import { beforeEach, expect, test } from 'vitest';
import { type CounterRecord, readCounterRecord } from '../../src/counter/readout.js';
import { REST_MM, WORK_MM } from '../rig/counter-rig.js';
import { away, newCrew, SAW_SECOND } from '../rig/crew.js';
import { eachByteChanged, eachByteLostOrAdded, writtenWith } from '../rig/damage.js';
import { MINUTE } from '../rig/day.js';
import { pairUp } from '../rig/pair-up.js';

/** Where the body begins, and in it the count of sessions: after power losses, 52 bits of dose, 28 of trigger time. */
const BODY_AT = 10;
const SESSIONS_AT = BODY_AT + 12;

let { site, saw, edda, bram } = newCrew();
beforeEach(() => {
  ({ site, saw, edda, bram } = newCrew());
});

/** 10 s unclaimed; 20 s and a short burst of Edda's session, 30 s of Bram's, both of whom are lost. */
function lost(): Uint8Array {
  saw.work(10_000);
  pairUp(saw, edda);
  site.air = away(edda);
  saw.work(20_000);
  saw.windows(WORK_MM, REST_MM);
  pairUp(saw, bram);
  site.air = away(edda, bram);
  saw.work(30_000);
  site.runFor(7 * 60 * MINUTE);
  saw.readout();
  return saw.records.at(-1)!;
}

function read(record: Uint8Array): CounterRecord {
  const contents = readCounterRecord(record);
  if (typeof contents === 'string') throw new Error(contents);
  return contents;
}

test('the record lists every undelivered session, and what nobody claimed', () => {
  const record = lost();
  expect(read(record)).toEqual({
    device: saw.id,
    powerLosses: 0,
    unclaimed: { dose: 10 * SAW_SECOND, triggerWindows: 100 },
    undelivered: [
      {
        session: 1,
        wearable: edda.id,
        dose: 20 * SAW_SECOND,
        triggerWindows: 200,
        unratedWindows: 0,
        shortBursts: 1,
        flags: ['sealed', 'shortBursts', 'unclaimed'],
      },
      {
        session: 2,
        wearable: bram.id,
        dose: 30 * SAW_SECOND,
        triggerWindows: 300,
        unratedWindows: 0,
        shortBursts: 0,
        flags: ['sealed', 'unclaimed'],
      },
    ],
  });
});

test('what was read out is let go of, also by the journal, and never told again', () => {
  const before = lost();
  expect(saw.sessions.slice(-2)).toEqual(['read out 1', 'read out 2']);
  expect(saw.states.get('sealed')).toBe('none');
  const sent = site.frames.length;
  site.air = () => [5];
  site.runFor(5 * MINUTE);
  expect(site.frames.slice(sent).filter(({ from }) => from === saw.id)).toEqual([]);
  saw.cutPower();
  saw.powerUp();
  saw.readout();
  const again = read(saw.records.at(-1)!);
  expect(again.undelivered).toEqual([]);
  expect(again.unclaimed).toEqual(read(before).unclaimed);
  expect(again.powerLosses).toBe(1);
});

test('a session that is open stays where it is', () => {
  pairUp(saw, edda);
  saw.work(5_000);
  saw.readout();
  expect(read(saw.records.at(-1)!).undelivered).toEqual([]);
  saw.work(5_000);
  expect(edda.dose).toBe(10 * SAW_SECOND);
});

test('a record with any byte changed, lost or added is refused, with a sentence', () => {
  const record = lost();
  for (const damaged of [...eachByteChanged(record), ...eachByteLostOrAdded(record)]) {
    expect(readCounterRecord(damaged)).toMatch(/^(it|its|a|the|this) .+[a-z0-9]$/);
  }
});

test("contents that do not fit what they count are refused, and so is a wearable's record", () => {
  const record = lost();
  // 14 bytes of counts and sums, 23 a session.
  expect(readCounterRecord(writtenWith(record, SESSIONS_AT + 1, 3))).toBe(
    'its contents take 83 bytes as it counts them, and it has 60',
  );
  expect(readCounterRecord(writtenWith(record, SESSIONS_AT + 1, 1))).toContain('its contents take');
  edda.readout();
  expect(readCounterRecord(edda.records.at(-1)!)).toBe('this is no record of a counter');
});
