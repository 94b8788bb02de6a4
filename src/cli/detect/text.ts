// The detector's result as text for a person.
import { inColumns } from '../print/columns.js';
import { findingLine, paragraphs } from '../print/findings.js';
import type { DetectOutput } from '../schemas/detect.js';

type Tried = NonNullable<DetectOutput['byDefault']>;

const HEAD = [
  'setting',
  'on',
  'off',
  'start',
  'stop',
  'ran',
  'counted',
  'false',
  'missed',
  'bursts false',
  'missed',
  'short',
];
const SIDES = HEAD.map((_, column) => (column === 0 ? 'left' : 'right'));

export function detectText({ file, durationS, byDefault, best, tried, findings, cautions }: DetectOutput): string {
  const rows = [
    ...(byDefault === null ? [] : [row('TRG-1', byDefault)]),
    ...(best === null ? [] : [row(`best of ${tried}`, best)]),
  ];
  const parts = [
    [durationS === null ? `${file} has no value.` : `${file}, ${durationS.toFixed(1)} s.`],
    rows.length === 0 ? [] : inColumns([HEAD, ...rows], SIDES),
    findings.map((one) => findingLine(one, file)),
    [
      'Levels in m/s² (r.m.s. of 100 ms, 6.3 to 1250 Hz, not weighted), start and stop after so many windows, times in s.',
      ...cautions,
    ],
  ];
  return paragraphs(parts);
}

function row(name: string, tried: Tried): readonly string[] {
  const { settings, trueMs, countedMs, falseMs, missedMs, falseBursts, missedBursts, shortBursts } = tried;
  const { onLevelMm, offLevelMm, startAfter, stopAfter } = settings;
  const levels = [onLevelMm, offLevelMm].map((mm) => (mm / 1000).toFixed(1));
  const times = [trueMs, countedMs, falseMs, missedMs].map((ms) => (ms / 1000).toFixed(1));
  const bursts = [falseBursts, missedBursts, shortBursts].map(String);
  return [name, ...levels, `${startAfter}`, `${stopAfter}`, ...times, ...bursts];
}
