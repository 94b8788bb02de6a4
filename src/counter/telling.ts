// What a counter tells its wearable (TAL-1, TAL-2, TRG-3, PAI-4): tallies and reports, of what its journal holds.
import { sealMessage } from '../link/frames.js';
import { type Report, TALLY_FLAGS } from '../link/messages.js';
import { cellLevel } from '../port/cell.js';
import type { Sums } from '../port/inner.js';
import { keepSums, LAST_SEQUENCE, reserve } from './journal.js';
import { isSaturated } from './meter.js';
import type { Parts } from './parts.js';
import type { CounterState, OpenSession, SealedFrame } from './state.js';

/** The last tally and its report need numbers too. */
const SPARE_SEQUENCES = 4;

/** Tells the wearer's wearable how the session stands. */
export function tell(parts: Parts): void {
  const { state, send } = parts;
  const { open } = state;
  if (open === null) throw new Error('nothing to tell without a session');
  if (open.sequence > LAST_SEQUENCE - SPARE_SEQUENCES) {
    // TAL-2: an exhausted sequence seals the session.
    send({ type: 'CLOSED' });
    return;
  }
  state.tallyWaits = !reserve(parts, open, 2) && parts.board.flash.busy();
  if (state.tallyWaits || open.sequence + 2 > open.reserved) return;
  const report = makeReport(parts, open);
  if (report !== null) parts.transmit(report.bytes, open.wearable, report.message);
  const tally = makeTally(parts, open, open.kept, false);
  parts.transmit(tally.bytes, open.wearable, tally.message);
}

/** KEP-5: the journal can be written again; the tally that waited for it is told. */
export function tellAfterErase(parts: Parts): void {
  if (parts.state.tallyWaits) tell(parts);
  else keepSums(parts);
}

/** Tells every sealed session that the journal holds again, verbatim (PAI-5). */
export function tellSealed(parts: Parts): void {
  const { state } = parts;
  for (const sealed of state.sealed) {
    if (!sealed.kept) continue;
    for (const { bytes, message } of sealed.frames) parts.transmit(bytes, sealed.wearable, message);
  }
}

export function makeTally(parts: Parts, open: OpenSession, sums: Readonly<Sums>, sealed: boolean): SealedFrame {
  const { state, board } = parts;
  open.sequence += 1;
  const message = {
    frame: 'tally',
    link: open.link,
    sequence: open.sequence,
    dose: sums.dose,
    triggerWindows: sums.triggerWindows,
    unratedWindows: sums.unratedWindows,
    magnitudeTenths: state.rate.tenths,
    cell: cellLevel(state.cellMv),
    flags: flagsOf(parts, open, sealed),
  } as const;
  return { bytes: sealMessage(board.cipher, open, message), message };
}

/** The report that is due beside the next tally, or null where the wearable knows all that it would say. */
export function makeReport({ state, board }: Parts, open: OpenSession): SealedFrame | null {
  const { powerLosses, keptUnclaimed } = state;
  if (open.sums.shortBursts === 0 && keptUnclaimed.triggerWindows === 0 && powerLosses === 0) return null;
  if (open.report !== null && open.reportAcknowledged && !hasNews(state, open, open.report)) return null;
  open.sequence += 1;
  open.reportAcknowledged = false;
  const message: Report = {
    frame: 'report',
    link: open.link,
    sequence: open.sequence,
    shortBursts: open.sums.shortBursts,
    powerLosses,
    unclaimedDose: keptUnclaimed.dose,
    unclaimedWindows: keptUnclaimed.triggerWindows,
  };
  open.report = message;
  return { bytes: sealMessage(board.cipher, open, message), message };
}

function hasNews(state: CounterState, open: OpenSession, last: Report): boolean {
  return (
    last.shortBursts !== open.sums.shortBursts ||
    last.powerLosses !== state.powerLosses ||
    last.unclaimedDose !== state.keptUnclaimed.dose ||
    last.unclaimedWindows !== state.keptUnclaimed.triggerWindows
  );
}

function flagsOf({ state, journal }: Parts, open: OpenSession, sealed: boolean): number {
  const flags = TALLY_FLAGS;
  return (
    (state.detector.running ? flags.running : 0) |
    (sealed ? flags.sealed : 0) |
    (isSaturated(open.sums) ? flags.saturated : 0) |
    (open.sums.shortBursts > 0 ? flags.shortBursts : 0) |
    (open.sensorFailed ? flags.sensorFault : 0) |
    (state.keptUnclaimed.triggerWindows > 0 ? flags.unclaimed : 0) |
    (journal.failed() ? flags.journalFault : 0) |
    (open.powerLost ? flags.powerLost : 0)
  );
}
