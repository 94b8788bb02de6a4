// What `counterproof readout --counter` prints for people: the sessions that were never delivered, what nobody claimed, and in
// sentences what has to be known of them.

import { inColumns } from '../print/columns.js';
import type { CounterOutput } from '../schemas/readout.js';
import { counted, pointsCell, timeCell } from './numbers.js';
import { WHOLE_SESSIONS } from './output.js';

type Undelivered = CounterOutput['undelivered'][number];

const HEADS = ['session', 'worker', 'points', 'trigger time', 'unrated', 'marks'];
const SIDES = ['right', 'left', 'right', 'right', 'right', 'left'] as const;

/** Flags of the last tally that say something of its sums. */
const MARKS: Readonly<Record<string, string>> = {
  saturated: 'saturated',
  shortBursts: 'short bursts',
  sensorFault: 'sensor fault',
  journalFault: 'journal fault',
  powerLost: 'power lost',
};

/** readOut: "read out at 15:40:00", or where the record came from. */
export function counterText(output: CounterOutput, readOut: string): string {
  const { tool, undelivered, unclaimed, powerLosses, cautions } = output;
  const nobodys = ['', '(unclaimed)', pointsCell(unclaimed), timeCell(unclaimed.triggerMs), '', ''];
  const rows = [HEADS, ...undelivered.map(rowOf), ...(unclaimed.triggerMs > 0 ? [nobodys] : [])];
  const notes = [
    ...undelivered.flatMap(notesOf),
    ...(powerLosses > 0
      ? [`The counter has lost power ${powerLosses === 1 ? 'once' : `${powerLosses} times`} in all.`]
      : []),
  ];
  return [
    `${tool}'s counter, ${readOut}: ${counted(undelivered.length, 'undelivered session')}.`,
    '',
    ...(rows.length > 1 ? [...inColumns(rows, SIDES), ''] : []),
    ...notes.map((note) => `- ${note}`),
    ...(notes.length > 0 ? [''] : []),
    WHOLE_SESSIONS,
    '',
    'Times in hours, minutes and seconds. The counter keeps a session no longer once it was read out: of what',
    'the wearable had not heard, this record is all there is. Unclaimed is what was counted in no session.',
    '',
    cautions.filter((caution) => caution !== WHOLE_SESSIONS).join(' '),
    '',
  ].join('\n');
}

function rowOf(session: Undelivered): readonly string[] {
  const { triggerMs, unratedMs, flags } = session;
  const marks = flags.flatMap((flag) => MARKS[flag] ?? []);
  return [
    `${session.session}`,
    workerName(session),
    pointsCell(session),
    timeCell(triggerMs),
    unratedMs === 0 ? '-' : timeCell(unratedMs),
    marks.join(', '),
  ];
}

function workerName({ worker, wearable }: Undelivered): string {
  return worker ?? `wearable ${wearable}`;
}

function notesOf({ session, shortBursts, unratedMs }: Undelivered): readonly string[] {
  const notes = [
    shortBursts > 0 && `Session ${session}: ${counted(shortBursts, 'burst')} too short to be counted.`,
    unratedMs > 0 &&
      `Session ${session} has ${timeCell(unratedMs)} at no magnitude, of which no points were made: it has too few.`,
  ];
  return notes.filter((note) => note !== false);
}
