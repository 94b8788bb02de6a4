// Shifts (WEA-3, WEA-4): opened by a pairing, closed by the wearer, a readout or six idle hours; the last 30 are kept.
import { MAX_DOSE } from '../exposure/dose.js';
import type { LedgerEntry } from '../port/inner.js';
import type { Parts } from './parts.js';
import type { Shift, WearableState } from './state.js';

const MAX_SHIFTS = 30;

/** The shift that is shown: the open one, or the last; undefined before the first. */
export function shownShift(state: WearableState): Shift | undefined {
  return state.shifts[state.shifts.length - 1];
}

export function openShift({ state, inner, send }: Parts): void {
  state.lastShift += 1;
  state.shifts.push({ shift: state.lastShift, dose: 0, unratedWindows: 0, incomplete: false, long: false });
  if (state.shifts.length > MAX_SHIFTS) state.shifts.shift();
  state.shiftOpen = true;
  state.passed = 0;
  state.acknowledged = 0;
  inner.shift(state.lastShift, 'opened');
  send({ type: 'NEW_SHIFT' });
}

export function closeShift({ state, inner }: Parts): void {
  state.shiftOpen = false;
  inner.shift(state.lastShift, 'closed');
}

/** A shift of more than 16 h is marked. */
export function markLong({ state, inner }: Parts): void {
  const shift = shownShift(state);
  if (shift === undefined) throw new Error('no shift is open that could be long');
  shift.long = true;
  inner.shift(shift.shift, 'long');
}

/** Adds what a ledger entry has grown by to its shift, however late it comes; returns the shift's dose. */
export function addToShift(state: WearableState, entry: LedgerEntry, dose: number, unratedWindows: number): number {
  const shift = state.shifts.find((kept) => kept.shift === entry.shift);
  if (shift === undefined) return 0;
  shift.dose = Math.min(MAX_DOSE, shift.dose + dose);
  shift.unratedWindows += unratedWindows;
  return shift.dose;
}

/** Whether a session belongs to a shift that is over: its counter is told with every acknowledgement (PAI-6). */
export function isOver(state: WearableState, shift: number): boolean {
  return !state.shiftOpen || shift !== state.lastShift;
}
