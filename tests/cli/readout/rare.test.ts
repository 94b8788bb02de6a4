// counterproof readout: what a day seldom leads to. Records as the devices may hand them over, decoded already.
import { expect, test } from 'vitest';
import { counterText } from '../../../src/cli/readout/counter-text.js';
import { readoutCsv } from '../../../src/cli/readout/csv.js';
import { counterOutput, wearableOutput } from '../../../src/cli/readout/output.js';
import { wearableText } from '../../../src/cli/readout/wearable-text.js';
import { readoutOutput } from '../../../src/cli/schemas/readout.js';

const DEVICES = { tools: ['drill'], workers: ['Edda', 'Bram'] };
/** 2 points and a 50 000th of one: 60 s at 24.4949 m/s² would do. */
const SUMS = { dose: 360_003_600, triggerWindows: 600, unratedWindows: 0 };
const SESSION = { ...SUMS, counter: 1, shortBursts: 0, powerLosses: 3, sealed: true };

const wearable = wearableOutput(
  {
    device: 2,
    shifts: [
      {
        shift: 7,
        dose: 3 * SUMS.dose,
        triggerWindows: 1900,
        unratedWindows: 100,
        open: true,
        long: true,
        incomplete: [],
      },
      { shift: 8, dose: 17_999_999, triggerWindows: 1, unratedWindows: 0, open: false, long: false, incomplete: [] },
    ],
    sessions: [
      { ...SESSION, shift: 5, session: 1 },
      { ...SESSION, shift: 7, session: 2, counter: 9, powerLosses: 0, shortBursts: 2 },
    ],
  },
  'Edda',
  null,
  DEVICES,
);

test('a shift tells what sessions made of which only the sums are kept; sessions of older shifts come last', () => {
  expect(readoutOutput.parse(wearable)).toEqual(wearable);
  expect(wearableText(wearable, 'as in a.hex').split('\n').slice(0, 16)).toEqual([
    "Edda's wearable, as in a.hex: 2 shifts, 2 sessions.",
    '',
    '  shift  session      points  A(8)  trigger time    unrated  marks',
    '      7                  6.0  0.61     0:03:10.0  0:00:10.0  open, long',
    '         counter 9 2     2.0           0:01:00.0          -',
    '         others          4.0           0:02:10.0  0:00:10.0',
    '      8                 <0.1  0.08     0:00:00.1          -',
    '         others         <0.1           0:00:00.1          -',
    'earlier  drill 1         2.0           0:01:00.0          -',
    '',
    '- Shift 7 was open: its sums may grow.',
    '- Shift 7 lasted more than 16 h.',
    '- Shift 7 has 0:00:10.0 at no magnitude, of which no points were made: it has too few.',
    '- Shift 7 had other sessions, of which only the sums are kept.',
    '- counter 9 2: 2 bursts too short to be counted.',
    '- Shift 8 had other sessions, of which only the sums are kept.',
  ]);
  expect(wearableText(wearable, 'as in a.hex')).toContain('- drill 1: its counter has lost power 3 times in all.');
});

test('in CSV every shift has a line, and a session of an older shift none of its columns', () => {
  expect(readoutCsv(wearable).split('\r\n').slice(1)).toEqual([
    'Edda,7,1080010800,6.0,0.61,190.0,10.0,yes,yes,,counter 9,2,360003600,2.0,60.0,0.0,2,0,yes',
    'Edda,8,17999999,0.0,0.08,0.1,0.0,no,no,,,,,,,,,,',
    'Edda,,,,,,,,,,drill,1,360003600,2.0,60.0,0.0,0,3,yes',
    '',
  ]);
});

test('a counter tells what makes a session doubtful, and never calls unrated time zero points', () => {
  const counter = counterOutput(
    {
      device: 1,
      powerLosses: 1,
      unclaimed: { dose: 0, triggerWindows: 36_000 },
      undelivered: [
        {
          ...{
            session: 4,
            wearable: 3,
            dose: 2 ** 52 - 1,
            triggerWindows: 2 ** 28 - 1,
            unratedWindows: 5,
            shortBursts: 1,
          },
          flags: ['sealed', 'saturated', 'shortBursts', 'sensorFault', 'unclaimed', 'journalFault', 'powerLost'],
        },
        { ...SUMS, session: 5, wearable: 44, shortBursts: 0, flags: ['sealed'] },
      ],
    },
    'drill',
    0,
    DEVICES,
  );
  expect(readoutOutput.parse(counter)).toEqual(counter);
  expect(counterText(counter, 'read out at 07:00:00').split('\n').slice(2, 10)).toEqual([
    'session  worker           points  trigger time    unrated  marks',
    '      4  Bram         25019997.9  7456:32:25.5  0:00:00.5  saturated, short bursts, sensor fault, journal fault, power lost',
    '      5  wearable 44         2.0     0:01:00.0          -',
    '         (unclaimed)     unrated     1:00:00.0',
    '',
    '- Session 4: 1 burst too short to be counted.',
    '- Session 4 has 0:00:00.5 at no magnitude, of which no points were made: it has too few.',
    '- The counter has lost power once in all.',
  ]);
  expect(readoutCsv(counter).split('\r\n')[2]).toBe('drill,1,0,,3600.0,wearable 44,5,360003600,2.0,60.0,0.0,0,sealed');
});
