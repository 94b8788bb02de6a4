// Shifts (WEA-3, WEA-4): opened by a pairing, closed by the wearer, a readout or six idle hours; the last 30 are kept.
import type { SessionSums } from '../port/inner.js';
import { keepShift, MAX_SHIFTS } from './journal.js';
import type { Parts } from './parts.js';
import type { Link, Shift, WearableState } from './state.js';
import { addSums } from './sums.js';

/** The shift that is shown: the open one, or the last; undefined before the first. */
export function shownShift(state: WearableState): Shift | undefined {
  return state.shifts[state.shifts.length - 1];
}

export function openShift(parts: Parts): void {
  const { state, board, send } = parts;
  state.lastShift += 1;
  const shift = {
    shift: state.lastShift,
    dose: 0,
    triggerWindows: 0,
    unratedWindows: 0,
    incomplete: 0,
    long: false,
    acknowledged: 0,
    openedMs: parts.nowMs(),
    folded: { dose: 0, triggerWindows: 0, unratedWindows: 0, counter: 0, session: 0 },
  };
  state.shifts.push(shift);
  if (state.shifts.length > MAX_SHIFTS) state.shifts.shift();
  state.shiftOpen = true;
  state.passed = 0;
  keepShift(parts, shift);
  board.inner.shift(state.lastShift, 'opened');
  send({ type: 'NEW_SHIFT' });
}

export function closeShift(parts: Parts): void {
  const { state, board } = parts;
  state.shiftOpen = false;
  keepShift(parts, current(state));
  board.inner.shift(state.lastShift, 'closed');
}

/** A shift of more than 16 h is marked. */
export function markLong(parts: Parts): void {
  const shift = current(parts.state);
  if (shift.long) return;
  shift.long = true;
  keepShift(parts, shift);
  parts.board.inner.shift(shift.shift, 'long');
}

/**
 * Adds what a session has grown by to its shift, however late it comes; returns the shift's dose. Where the shift is no
 * longer kept (WEA-4), the session's own entry says what came for it.
 */
export function addToShift(state: WearableState, link: Link, before: SessionSums): number {
  const shift = state.shifts.find((kept) => kept.shift === link.shift);
  if (shift === undefined) return 0;
  addSums(shift, link, before);
  return shift.dose;
}

/** Whether a session belongs to a shift that is over: its counter is told with every acknowledgement (PAI-6). */
export function isOver(state: WearableState, shift: number): boolean {
  return !state.shiftOpen || shift !== state.lastShift;
}

function current(state: WearableState): Shift {
  const shift = shownShift(state);
  if (shift === undefined) throw new Error('there is no shift yet');
  return shift;
}
