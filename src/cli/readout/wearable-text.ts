// What `counterproof readout --wearable` prints for people: a table of shifts, each with its sessions, and below it, in
// sentences, what has to be known of them.

import { inColumns } from '../print/columns.js';
import type { WearableOutput } from '../schemas/readout.js';
import { a8Cell, counted, pointsCell, timeCell } from './numbers.js';

type Shift = WearableOutput['shifts'][number];
type Session = WearableOutput['earlier'][number];

const HEADS = ['shift', 'session', 'points', 'A(8)', 'trigger time', 'unrated', 'marks'];
const SIDES = ['right', 'left', 'right', 'right', 'right', 'right', 'left'] as const;

/** readOut: "read out at 15:40:00", or where the record came from. */
export function wearableText(output: WearableOutput, readOut: string): string {
  const { worker, shifts, earlier, cautions } = output;
  const sessions = shifts.reduce((sum, shift) => sum + shift.sessions.length, earlier.length);
  const rows = [HEADS, ...shifts.flatMap(shiftRows), ...earlier.map((session) => sessionRow(session, 'earlier'))];
  const notes = [...shifts.flatMap(shiftNotes), ...earlier.flatMap(sessionNotes)];
  return [
    `${worker}'s wearable, ${readOut}: ${counted(shifts.length, 'shift')}, ${counted(sessions, 'session')}.`,
    '',
    ...(rows.length > 1 ? [...inColumns(rows, SIDES), ''] : []),
    ...notes.map((note) => `- ${note}`),
    ...(notes.length > 0 ? [''] : []),
    'A(8) in m/s², times in hours, minutes and seconds. Of each session there is what had reached the',
    'wearable: while it is not sealed, its counter may have more to tell.',
    '',
    cautions.join(' '),
    '',
  ].join('\n');
}

function shiftRows(shift: Shift): readonly (readonly string[])[] {
  const { open, long, incomplete, forgotten } = shift;
  const marks = [open && 'open', long && 'long', incomplete.length > 0 && 'incomplete'].filter(
    (mark) => mark !== false,
  );
  const forgottenRow = forgotten && ['', 'others', pointsCell(forgotten), '', ...times(forgotten), ''];
  return [
    [`${shift.shift}`, '', pointsCell(shift), a8Cell(shift.a8), ...times(shift), marks.join(', ')],
    ...shift.sessions.map((session) => sessionRow(session)),
    ...(forgottenRow === null ? [] : [forgottenRow]),
  ];
}

function sessionRow(session: Session, shift = ''): readonly string[] {
  const mark = session.sealed ? '' : 'not sealed';
  return [shift, sessionName(session), pointsCell(session), '', ...times(session), mark];
}

function times({ triggerMs, unratedMs }: Shift | Session | NonNullable<Shift['forgotten']>): readonly string[] {
  return [timeCell(triggerMs), unratedMs === 0 ? '-' : timeCell(unratedMs)];
}

/** "breaker 3": a counter numbers its sessions. */
function sessionName({ tool, counter, session }: Session): string {
  return `${tool ?? `counter ${counter}`} ${session}`;
}

function shiftNotes({ shift, open, long, incomplete, unratedMs, sessions, forgotten }: Shift): readonly string[] {
  const name = `Shift ${shift}`;
  const notes = [
    open && `${name} was open: its sums may grow.`,
    long && `${name} lasted more than 16 h.`,
    incomplete.length > 0 && `${name} is incomplete: ${incomplete.join(', ')}. Its sums may be too small.`,
    unratedMs > 0 &&
      `${name} has ${timeCell(unratedMs)} at no magnitude, of which no points were made: it has too few.`,
    forgotten !== null && `${name} had other sessions, of which only the sums are kept.`,
  ];
  return [...notes.filter((note) => note !== false), ...sessions.flatMap(sessionNotes)];
}

function sessionNotes(session: Session): readonly string[] {
  const { shortBursts, powerLosses } = session;
  const said = [
    shortBursts > 0 && `${counted(shortBursts, 'burst')} too short to be counted`,
    powerLosses > 0 && `its counter has lost power ${powerLosses === 1 ? 'once' : `${powerLosses} times`} in all`,
  ].filter((one) => one !== false);
  return said.length === 0 ? [] : [`${sessionName(session)}: ${said.join('; ')}.`];
}
