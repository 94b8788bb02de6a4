// Faults of the magnitude: how it is keyed in, kept, and put in force (MAG).
import type { Canary } from '../canary.js';

export const MAGNITUDE: readonly Canary[] = [
  {
    name: 'silence in the review commits the magnitude instead of discarding it',
    breaks: ['MAG-3'],
    file: 'src/counter/chart.ts',
    replace: [
      [
        "after: { reviewSilence: { target: '#resting', actions: 'discardSetting' } },",
        "after: { reviewSilence: { target: '#resting', actions: 'commitMagnitude' } },",
      ],
    ],
    seed: null,
  },
  {
    name: 'silence while the ring is turned commits what is shown, without a review',
    breaks: ['MAG-3'],
    file: 'src/counter/chart.ts',
    replace: [
      [
        "after: { settingSilence: { target: '#resting', actions: 'discardSetting' } },",
        "after: { settingSilence: { target: '#resting', actions: 'commitMagnitude' } },",
      ],
    ],
    seed: null,
  },
  {
    name: 'a start of the tool does not discard what is being set',
    breaks: ['MAG-4'],
    file: 'src/counter/chart.ts',
    replace: [["    STARTED: { target: 'resting', actions: 'discardSetting' },\n", '']],
    days: 'rich',
    seed: 5,
  },
  {
    name: 'the ring opens setting while the tool runs',
    breaks: ['MAG-2', 'MAG-4'],
    file: 'src/counter/chart.ts',
    replace: [
      ["              { guard: 'toolRuns', target: 'refusing', actions: 'showRunning' }, // MAG-2, MAG-4\n", ''],
    ],
    days: 'rich',
    seed: 3,
  },
  {
    name: 'quick detents add 0.5 where they ought to go to the next multiple of 0.5',
    breaks: ['MAG-2'],
    file: 'src/counter/setting.ts',
    replace: [
      ['(Math.floor(tenths / COARSE_STEP_TENTHS) + 1) * COARSE_STEP_TENTHS', 'tenths + COARSE_STEP_TENTHS'],
      ['(Math.ceil(tenths / COARSE_STEP_TENTHS) - 1) * COARSE_STEP_TENTHS', 'tenths - COARSE_STEP_TENTHS'],
    ],
    seed: null,
  },
  {
    name: 'from blank the ring begins at its least value',
    breaks: ['MAG-2'],
    file: 'src/counter/setting.ts',
    replace: [['setting.tenths = FIRST_FROM_BLANK_TENTHS;', 'setting.tenths = LEAST_MAGNITUDE_TENTHS;']],
    seed: null,
  },
  {
    name: 'the ring goes on below its least value, down to 0.1',
    breaks: ['MAG-1', 'MAG-2'],
    file: 'src/counter/setting.ts',
    replace: [['Math.max(LEAST_MAGNITUDE_TENTHS, turned)', 'Math.max(1, turned)']],
    seed: null,
  },
  {
    name: 'the review rounds the points of ten minutes down',
    breaks: ['MAG-3'],
    file: 'src/counter/setting.ts',
    replace: [['Math.ceil((tenths * tenths) / 300)', 'Math.floor((tenths * tenths) / 300)']],
    seed: null,
  },
  {
    name: 'a magnitude is not written down when it is committed, and a restart brings the old one back',
    breaks: ['MAG-3', 'KEP-1'],
    file: 'src/counter/effects.ts',
    replace: [['      keepMagnitude(parts);\n', '']],
    days: 'rich',
    seed: 5,
  },
  {
    name: 'after a restart the counter goes back to the magnitude that was keyed in before the day',
    breaks: ['MAG-3', 'KEP-1'],
    file: 'src/counter/journal.ts',
    replace: [
      [
        'const tenths = magnitude === null ? keyedTenths : unpack(MAGNITUDE_BITS, magnitude).tenths;',
        'const tenths = keyedTenths;',
      ],
    ],
    days: 'rich',
    seed: 5,
  },
  {
    name: 'a window that began before a commit is counted at the new magnitude',
    breaks: ['MAG-5'],
    file: 'src/counter/meter.ts',
    replace: [['add(sums, rate.previousTenths, old)', 'add(sums, rate.tenths, old)']],
    seed: null,
  },
  {
    name: 'the dose is worked out afresh from all of the trigger time at the magnitude of now',
    breaks: ['MAG-5', 'ACC-1', 'ACC-2'],
    file: 'src/counter/meter.ts',
    replace: [
      [
        'sums.dose + tenths * tenths * WINDOW_MS * windows',
        'tenths * tenths * WINDOW_MS * (sums.triggerWindows - sums.unratedWindows)',
      ],
    ],
    seed: 9,
  },
  {
    name: 'time without a magnitude is not counted as trigger time',
    breaks: ['MAG-6'],
    file: 'src/counter/meter.ts',
    replace: [
      [
        'sums.triggerWindows = Math.min(MAX_WINDOWS, sums.triggerWindows + windows);\n  if (tenths === 0)',
        'if (tenths === 0) return;\n  sums.triggerWindows = Math.min(MAX_WINDOWS, sums.triggerWindows + windows);\n  if (tenths === 0)',
      ],
    ],
    seed: 1,
  },
  {
    name: 'time without a magnitude is not counted as unrated',
    breaks: ['MAG-6'],
    file: 'src/counter/meter.ts',
    replace: [
      ['  if (tenths === 0) sums.unratedWindows = Math.min(MAX_WINDOWS, sums.unratedWindows + windows);\n', ''],
    ],
    seed: 1,
  },
  {
    name: 'time without a magnitude is rated at the action value of 2.5 m/s²',
    breaks: ['MAG-6', 'ACC-1'],
    file: 'src/counter/meter.ts',
    replace: [
      ['sums.dose + tenths * tenths * WINDOW_MS * windows', 'sums.dose + (tenths || 25) ** 2 * WINDOW_MS * windows'],
    ],
    seed: 1,
  },
  {
    name: 'a shift that has only unrated time shows zero points',
    breaks: ['MAG-6'],
    file: 'src/wearable/face.ts',
    replace: [['points === 0 && shift.unratedWindows > 0 ? BLANK : points', 'points']],
    seed: null,
  },
  {
    name: 'a tally tells the magnitude that was in force before the last commit',
    breaks: ['TAL-1'],
    file: 'src/counter/telling.ts',
    replace: [['magnitudeTenths: state.rate.tenths,', 'magnitudeTenths: state.rate.previousTenths,']],
    seed: null,
  },
];
