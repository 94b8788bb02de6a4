// Alerts (WEA-2): each comes with the first accepted tally at or past its level, and again until acknowledged.
import { keepShift } from './journal.js';
import { leastDose } from './levels.js';
import type { Parts } from './parts.js';
import { shownShift } from './shifts.js';

/** Calls the levels that a new total of the shift shown has passed, lowest first. */
export function callLevels(parts: Parts, total: number): void {
  const { state, levels, board } = parts;
  const before = state.passed;
  while (state.passed < levels.length && total >= leastDose(levels[state.passed]!)) {
    board.alert(levels[state.passed]!.level, 0);
    state.passed += 1;
  }
  if (state.passed === before) return;
  state.calls = 0;
  parts.send({ type: 'LEVEL' });
}

/** Repeats the highest level passed; a wearable that sleeps calls nobody (CEL-1). */
export function callAgain({ state, levels, board }: Parts): void {
  if (state.asleep) return;
  const highest = levels[state.passed - 1];
  if (highest === undefined) throw new Error('no level is passed that could be called again');
  state.calls += 1;
  board.alert(highest.level, state.calls);
}

export function limitPassed({ state, levels }: Parts): boolean {
  return levels.some((level, index) => level.level === 'limit' && index < state.passed);
}

/** The wearer has seen the alert; that is kept, so that a power failure does not call for it again (WEA-5). */
export function acknowledgeAlert(parts: Parts): void {
  const shift = shownShift(parts.state);
  if (shift === undefined) throw new Error('no shift is there whose alert could be acknowledged');
  shift.acknowledged = parts.state.passed;
  keepShift(parts, shift);
}

export function alertIsPending({ state }: Parts): boolean {
  return (shownShift(state)?.acknowledged ?? 0) < state.passed;
}

/** How many levels a dose has passed. */
export function levelsPassed({ levels }: Parts, dose: number): number {
  return levels.filter((level) => dose >= leastDose(level)).length;
}
