// What `counterproof readout --csv` prints: RFC 4180, one line a session. Points are cut off after one decimal and A(8) is rounded
// to two, as in the table; the dose is exact. A spreadsheet takes a text that begins with = + - or @ for a formula: such a name
// gets an apostrophe in front.
import type { CounterOutput, ReadoutOutput, WearableOutput } from '../schemas/readout.js';
import { a8Cell, pointsCell } from './numbers.js';

type Shift = WearableOutput['shifts'][number];
type Session = WearableOutput['earlier'][number];

const SESSION_SUMS = ['session', 'dose_u', 'points', 'trigger_s', 'unrated_s', 'short_bursts'];
const SHIFT_HEADS = [
  'shift',
  ...['shift_dose_u', 'shift_points', 'shift_a8_m_s2', 'shift_trigger_s', 'shift_unrated_s'],
  ...['shift_open', 'shift_long', 'shift_incomplete'],
];
const WEARABLE_HEADS = ['worker', ...SHIFT_HEADS, 'tool', ...SESSION_SUMS, 'power_losses', 'sealed'];
const COUNTER_HEADS = [
  ...['tool', 'power_losses', 'unclaimed_dose_u', 'unclaimed_points', 'unclaimed_trigger_s'],
  ...['worker', ...SESSION_SUMS, 'flags'],
];

export function readoutCsv(output: ReadoutOutput): string {
  const lines = output.record === 'wearable' ? wearableLines(output) : counterLines(output);
  return lines.map((cells) => `${cells.map(quoted).join(',')}\r\n`).join('');
}

/** A shift of which no session is kept by itself has a line too. */
function wearableLines({ worker, shifts, earlier }: WearableOutput): readonly (readonly string[])[] {
  const none = SHIFT_HEADS.map(() => '');
  const ofShifts = shifts.flatMap((shift) => {
    const { sessions } = shift;
    const cells = sessions.length === 0 ? [[]] : sessions.map(sessionCells);
    return cells.map((session) => [safe(worker), ...shiftCells(shift), ...session]);
  });
  const lines = [...ofShifts, ...earlier.map((session) => [safe(worker), ...none, ...sessionCells(session)])];
  return [WEARABLE_HEADS, ...lines.map((cells) => filled(cells, WEARABLE_HEADS.length))];
}

function shiftCells({
  shift,
  dose,
  points,
  a8,
  triggerMs,
  unratedMs,
  open,
  long,
  incomplete,
}: Shift): readonly string[] {
  const sums = [
    `${dose}`,
    pointsOf({ dose, points }),
    a8 === null ? '' : a8Cell(a8),
    seconds(triggerMs),
    seconds(unratedMs),
  ];
  return [`${shift}`, ...sums, yesNo(open), yesNo(long), incomplete.join('; ')];
}

function sessionCells(session: Session): readonly string[] {
  const { tool, counter, powerLosses, sealed } = session;
  return [safe(tool ?? `counter ${counter}`), ...sumCells(session), `${powerLosses}`, yesNo(sealed)];
}

/** Where no session is undelivered, the counter has a line all the same. */
function counterLines({ tool, powerLosses, unclaimed, undelivered }: CounterOutput): readonly (readonly string[])[] {
  const own = [safe(tool), `${powerLosses}`, `${unclaimed.dose}`, pointsOf(unclaimed), seconds(unclaimed.triggerMs)];
  const sessions = undelivered.map((session) => [
    ...own,
    safe(session.worker ?? `wearable ${session.wearable}`),
    ...sumCells(session),
    session.flags.join('; '),
  ]);
  const lines = sessions.length === 0 ? [filled(own, COUNTER_HEADS.length)] : sessions;
  return [COUNTER_HEADS, ...lines];
}

function sumCells({
  session,
  dose,
  points,
  triggerMs,
  unratedMs,
  shortBursts,
}: Omit<Session, 'tool' | 'counter' | 'powerLosses' | 'sealed'>): readonly string[] {
  return [
    `${session}`,
    `${dose}`,
    pointsOf({ dose, points }),
    seconds(triggerMs),
    seconds(unratedMs),
    `${shortBursts}`,
  ];
}

function pointsOf(rated: { readonly dose: number; readonly points: number | null }): string {
  // A number or nothing: less than a tenth of a point is 0.0 here, beside the exact dose.
  return rated.points === null ? '' : pointsCell(rated).replace('<0.1', '0.0');
}

function seconds(ms: number): string {
  return (ms / 1000).toFixed(1);
}

function yesNo(value: boolean): string {
  return value ? 'yes' : 'no';
}

function filled(cells: readonly string[], length: number): readonly string[] {
  return [...cells, ...Array.from({ length: length - cells.length }, () => '')];
}

/** Also the full-width forms of the four signs, which some spreadsheets take for the same. */
function safe(name: string): string {
  return /^[=+\-@＝＋－＠]/u.test(name) ? `'${name}` : name;
}

/** RFC 4180, section 2, rules 5 to 7. */
function quoted(cell: string): string {
  return /[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}
