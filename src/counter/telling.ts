// What a counter tells its wearable (TAL-1, TRG-3, PAI-4): tallies and reports, from the state as it stands.
import { HEADER_BITS, largest } from '../link/layout.js';
import { type Report, TALLY_FLAGS, type Tally } from '../link/messages.js';
import { isSaturated } from './meter.js';
import type { Parts } from './parts.js';
import type { CounterState, OpenSession } from './state.js';

const CELL_FULL = 3;
/** The last tally and its report need numbers too. */
const LAST_SEQUENCE = largest(HEADER_BITS.sequence) - 4;

/** Tells the wearer's wearable how the session stands. */
export function tell({ state, board, send }: Parts): void {
  const { open } = state;
  if (open === null) throw new Error('nothing to tell without a session');
  if (open.sequence > LAST_SEQUENCE) {
    // TAL-2: an exhausted sequence seals the session.
    send({ type: 'CLOSED' });
    return;
  }
  const report = makeReport(state, open);
  if (report !== null) board.send(report, open.wearable);
  board.send(makeTally(state, open, false), open.wearable);
}

/** Tells every sealed session again, verbatim (PAI-5). */
export function tellSealed({ state, board }: Parts): void {
  for (const { frames, wearable } of state.sealed) {
    for (const frame of frames) board.send(frame, wearable);
  }
}

export function makeTally(state: CounterState, open: OpenSession, sealed: boolean): Tally {
  open.sequence += 1;
  return {
    frame: 'tally',
    link: open.link,
    sequence: open.sequence,
    dose: open.sums.dose,
    triggerWindows: open.sums.triggerWindows,
    unratedWindows: open.sums.unratedWindows,
    magnitudeTenths: state.rate.tenths,
    cell: CELL_FULL,
    flags: flagsOf(state, open, sealed),
  };
}

/** The report that is due beside the next tally, or null where the wearable knows all that it would say. */
export function makeReport(state: CounterState, open: OpenSession): Report | null {
  if (open.sums.shortBursts === 0 && state.unclaimed.triggerWindows === 0) return null;
  if (open.report !== null && open.reportAcknowledged && !hasNews(state, open, open.report)) return null;
  open.sequence += 1;
  open.reportAcknowledged = false;
  open.report = {
    frame: 'report',
    link: open.link,
    sequence: open.sequence,
    shortBursts: open.sums.shortBursts,
    powerLosses: 0,
    unclaimedDose: state.unclaimed.dose,
    unclaimedWindows: state.unclaimed.triggerWindows,
  };
  return open.report;
}

function hasNews(state: CounterState, open: OpenSession, last: Report): boolean {
  return (
    last.shortBursts !== open.sums.shortBursts ||
    last.unclaimedDose !== state.unclaimed.dose ||
    last.unclaimedWindows !== state.unclaimed.triggerWindows
  );
}

function flagsOf(state: CounterState, open: OpenSession, sealed: boolean): number {
  const { running, sealed: sealedFlag, saturated, shortBursts, sensorFault, unclaimed } = TALLY_FLAGS;
  return (
    (state.detector.running ? running : 0) |
    (sealed ? sealedFlag : 0) |
    (isSaturated(open.sums) ? saturated : 0) |
    (open.sums.shortBursts > 0 ? shortBursts : 0) |
    (open.sensorFailed ? sensorFault : 0) |
    (state.unclaimed.triggerWindows > 0 ? unclaimed : 0)
  );
}
