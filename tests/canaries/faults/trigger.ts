// Faults of trigger detection and of the sums (TRG, ACC).
import type { Canary } from '../canary.js';

export const TRIGGER: readonly Canary[] = [
  {
    name: 'a start is dated to the window that confirmed it',
    breaks: ['TRG-2'],
    file: 'src/counter/detector.ts',
    replace: [['result.counted = state.pending;\n    result.decision', 'result.counted = 1;\n    result.decision']],
    seed: null,
  },
  {
    name: 'windows that were withheld are lost although a later one is loud again',
    breaks: ['TRG-2'],
    file: 'src/counter/detector.ts',
    replace: [['result.counted = state.pending + result.used;', 'result.counted = result.used;']],
    seed: null,
  },
  {
    name: 'the windows below the off level that confirm a stop are counted as running',
    breaks: ['TRG-2', 'TRG-4'],
    file: 'src/counter/detector.ts',
    replace: [
      [
        "result.decision = 'stopped';",
        "result.counted = state.pending + result.used;\n    result.decision = 'stopped';",
      ],
    ],
    seed: 1,
  },
  {
    name: 'a stop is confirmed after 50 windows instead of five, and pauses between are counted',
    breaks: ['TRG-1', 'TRG-4'],
    file: 'src/counter/detector.ts',
    replace: [['startAfter: 2, stopAfter: 5 };', 'startAfter: 2, stopAfter: 50 };']],
    seed: 3,
  },
  {
    name: 'a start is confirmed after ten windows instead of two, and bursts below a second are lost',
    breaks: ['TRG-1', 'TRG-4'],
    file: 'src/counter/detector.ts',
    replace: [['startAfter: 2, stopAfter: 5 };', 'startAfter: 10, stopAfter: 5 };']],
    seed: 1,
  },
  {
    name: 'one window is enough for a start',
    breaks: ['TRG-1', 'TRG-3'],
    file: 'src/counter/detector.ts',
    replace: [['startAfter: 2, stopAfter: 5 };', 'startAfter: 1, stopAfter: 5 };']],
    seed: null,
  },
  {
    name: 'a burst too short to confirm is not counted as one',
    breaks: ['TRG-3'],
    file: 'src/counter/counter.ts',
    replace: [["    if (detection.decision === 'short') countShortBurst(sums);\n", '']],
    seed: null,
  },
  {
    name: 'short bursts are told, and the shift is not marked incomplete for them',
    breaks: ['TRG-3'],
    file: 'src/wearable/tallies.ts',
    replace: [["  [TALLY_FLAGS.shortBursts, 'short bursts'],\n", '']],
    seed: null,
  },
  {
    name: 'a clipped sensor counts as one at rest',
    breaks: ['TRG-5'],
    file: 'src/counter/sensor.ts',
    replace: [["  if (sensor === 'clipped') return Number.MAX_SAFE_INTEGER;\n", '']],
    seed: 4,
  },
  {
    name: 'a silent sensor is believed for five seconds',
    breaks: ['TRG-5'],
    file: 'src/counter/sensor.ts',
    replace: [['const WINDOWS_TO_BELIEVE = 5;', 'const WINDOWS_TO_BELIEVE = 50;']],
    seed: null,
  },
  {
    name: 'a fault of the sensor that is over by the next tally is not told',
    breaks: ['TRG-5'],
    file: 'src/counter/telling.ts',
    replace: [['(open.sensorFailed ? flags.sensorFault : 0)', '(state.sensorWatch.faulty ? flags.sensorFault : 0)']],
    seed: null,
  },
  {
    name: 'a frozen sensor is taken for a good one',
    breaks: ['TRG-5'],
    file: 'src/counter/sensor.ts',
    replace: [
      [
        "return (sensor !== 'good') !== watch.faulty;",
        "return (sensor !== 'good' && sensor !== 'frozen') !== watch.faulty;",
      ],
    ],
    seed: null,
  },
  {
    name: 'the dose is added up in 32 bits',
    breaks: ['ACC-1', 'ACC-2'],
    file: 'src/counter/meter.ts',
    replace: [
      [
        'sums.dose + tenths * tenths * WINDOW_MS * windows)',
        '(sums.dose + tenths * tenths * WINDOW_MS * windows) >>> 0)',
      ],
    ],
    seed: 2,
  },
  {
    name: 'the dose is added up in single-precision floats',
    breaks: ['ACC-1'],
    file: 'src/counter/meter.ts',
    replace: [
      [
        'sums.dose + tenths * tenths * WINDOW_MS * windows)',
        'Math.fround(sums.dose + tenths * tenths * WINDOW_MS * windows))',
      ],
    ],
    seed: 1,
  },
  {
    name: 'a window is taken for 102 ms',
    breaks: ['ACC-1', 'CLK-1'],
    file: 'src/counter/meter.ts',
    replace: [['tenths * tenths * WINDOW_MS * windows', 'tenths * tenths * 102 * windows']],
    seed: 1,
  },
  {
    name: 'alerts compare points that are rounded to whole ones',
    breaks: ['ACC-3', 'WEA-2'],
    file: 'src/wearable/alerts.ts',
    replace: [
      ['total >= leastDose(levels[state.passed]!)', 'Math.round(total / 180_000_000) >= levels[state.passed]!.points'],
    ],
    seed: 2,
  },
  {
    name: 'a limit that is to be exceeded compares points that are truncated to whole ones',
    breaks: ['ACC-3', 'WEA-2'],
    file: 'src/wearable/levels.ts',
    replace: [["(level.compare === 'exceeded' ? 1 : 0)", "(level.compare === 'exceeded' ? U_PER_POINT : 0)"]],
    seed: 29,
  },
  {
    name: 'a limit that is to be exceeded counts as passed when it is reached',
    breaks: ['ACC-3', 'WEA-2'],
    file: 'src/wearable/levels.ts',
    replace: [["(level.compare === 'exceeded' ? 1 : 0)", '0']],
    days: 'rich',
    seed: 17,
  },
  {
    name: 'the wearable shows rounded points',
    breaks: ['ACC-3'],
    file: 'src/wearable/face.ts',
    replace: [['const points = wholePoints(shift.dose);', 'const points = Math.round(shift.dose / 180_000_000);']],
    seed: null,
  },
];
