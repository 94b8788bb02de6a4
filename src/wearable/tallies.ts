// What the wearable makes of a tally or a report that its counter has sealed (TAL-3, TAL-5, TAL-7, TRG-3): the ledger grows by it,
// the journal holds it, and then it is acknowledged.
import { MAX_MAGNITUDE_TENTHS } from '../exposure/dose.js';
import { sealMessage } from '../link/frames.js';
import { ALERT_LEVELS, type Report, TALLY_FLAGS, type Tally } from '../link/messages.js';
import type { Refusal } from '../port/refusals.js';
import { callLevels } from './alerts.js';
import { keepEntry, keepReport, keepShift } from './journal.js';
import { merge } from './ledger.js';
import { tenthsLeft } from './levels.js';
import type { Parts } from './parts.js';
import { addToShift, isOver, shownShift } from './shifts.js';
import { INCOMPLETE, type Link } from './state.js';
import { markStale, newestOf, noteRunning, planCheck } from './watch.js';

/** While a counter runs and has nothing new to be told, it is answered so often (TAL-5): every other tally. */
const ANSWER_EVERY_MS = 9_000;

/** TAL-7: the largest magnitude makes so many u in a ms; 4 % for two oscillators, 10 s for what was on its way. */
const MOST_U_PER_MS = MAX_MAGNITUDE_TENTHS * MAX_MAGNITUDE_TENTHS;
const SPARE_MS = 10_000;

/** Why a shift is marked incomplete, by the flag of the tally that told. */
const INCOMPLETE_BY = [
  [TALLY_FLAGS.shortBursts, 'short bursts'],
  [TALLY_FLAGS.sensorFault, 'sensor fault'],
  [TALLY_FLAGS.journalFault, 'journal fault'],
  [TALLY_FLAGS.powerLost, 'power lost'],
  [TALLY_FLAGS.saturated, 'saturated'],
] as const;

export function takeTally(parts: Parts, link: Link, tally: Tally): Refusal | '' {
  if (tally.sequence < link.highest) return 'replayed';
  if (tally.sequence === link.highest && link.confirmed) {
    // Told again, word for word: the acknowledgement has not been heard (PAI-5).
    acknowledge(parts, link);
    return '';
  }
  if (!isPlausible(parts, link, tally)) {
    markIncomplete(parts, link, 'implausible');
    return 'implausible';
  }
  if (!link.confirmed) confirm(parts, link);
  const news = hear(parts, link, tally);
  charge(parts, link, tally);
  if (news || isDue(parts, link)) acknowledge(parts, link);
  return '';
}

export function takeReport(parts: Parts, link: Link, report: Report): Refusal | '' {
  if (report.sequence < link.highestReport) return 'replayed';
  if (report.sequence === link.highestReport) return '';
  const { shortBursts, powerLosses, unclaimedDose, unclaimedWindows } = report;
  link.highestReport = report.sequence;
  link.report = { shortBursts, powerLosses, unclaimedDose, unclaimedWindows };
  link.reportUnkept = true;
  keepReport(parts, link);
  return '';
}

/** Answers those whose acknowledgement waited for the journal. */
export function acknowledgeWaiting(parts: Parts): void {
  for (const link of parts.state.links) if (link.ackWaits) acknowledge(parts, link);
}

function isPlausible({ nowMs }: Parts, link: Link, tally: Tally): boolean {
  if (link.heardMs === null) return true;
  const sinceMs = nowMs() - link.heardMs;
  return tally.dose - link.dose <= MOST_U_PER_MS * (sinceMs + Math.ceil(sinceMs / 25) + SPARE_MS);
}

/** The first tally shows that the counter has opened the session; the shift in which it was paired opens with it (WEA-3). */
function confirm({ state, board, send }: Parts, link: Link): void {
  const before = newestOf(state, link.counter);
  link.confirmed = true;
  if (before?.stale === true && newestOf(state, link.counter) === link) board.mark(link.counter, 'stale', false);
  if (!isOver(state, link.shift) || link.shift > state.lastShift) send({ type: 'PAIRED' });
}

/** What a tally says of the counter's present state. True where that is anything new. */
function hear(parts: Parts, link: Link, tally: Tally): boolean {
  const newFlags = tally.flags & ~link.flags;
  const running = (tally.flags & TALLY_FLAGS.running) !== 0;
  const sealed = (tally.flags & TALLY_FLAGS.sealed) !== 0;
  const news = newFlags !== 0 || link.running !== running || link.sealed !== sealed || link.stale;
  for (const [flag, why] of INCOMPLETE_BY) if ((newFlags & flag) !== 0) markIncomplete(parts, link, why);
  link.flags |= tally.flags;
  link.highest = tally.sequence;
  link.heardMs = parts.nowMs();
  link.running = running;
  link.unkept = true;
  link.sealed = sealed;
  if (link.stale) markStale(parts, link, false);
  if (news) noteRunning(parts);
  planCheck(parts);
  return news;
}

function charge(parts: Parts, link: Link, tally: Tally): void {
  const { state, board } = parts;
  const { dose, triggerWindows, unratedWindows } = link;
  if (!merge(link, tally)) return;
  if (link.triggerWindows > triggerWindows && !isOver(state, link.shift)) parts.send({ type: 'RAN' });
  const total = addToShift(state, link, { dose, triggerWindows, unratedWindows });
  keepEntry(parts, link, 1);
  board.inner.ledger(link, total);
  if (link.shift === shownShift(state)?.shift) callLevels(parts, total);
}

function markIncomplete(parts: Parts, link: Link, why: keyof typeof INCOMPLETE): void {
  const shift = parts.state.shifts.find((kept) => kept.shift === link.shift);
  if (shift === undefined) return;
  if ((shift.incomplete & INCOMPLETE[why]) === 0) {
    shift.incomplete |= INCOMPLETE[why];
    keepShift(parts, shift);
  }
  parts.board.inner.incomplete(shift.shift, link.counter, why);
}

/** Whether an acknowledgement would tell the counter anything that the last one did not, or has not been sent for long. */
function isDue(parts: Parts, link: Link): boolean {
  const { state, nowMs } = parts;
  const { said } = link;
  if (said === null || !link.running) return true;
  return (
    said.level !== state.passed ||
    said.closed !== isOver(state, link.shift) ||
    said.highestReport !== link.highestReport ||
    nowMs() - said.atMs >= ANSWER_EVERY_MS
  );
}

/** Says what the journal holds, and nothing that it does not: what is acknowledged is told no more. */
function acknowledge(parts: Parts, link: Link): void {
  const { state, levels, board, transmit } = parts;
  link.ackWaits = !keepReport(parts, link) || !keepEntry(parts, link, 1);
  if (link.ackWaits) return;
  const next = levels[state.passed];
  const passed = levels[state.passed - 1];
  const closed = isOver(state, link.shift);
  link.sequence += 1;
  link.said = { atMs: parts.nowMs(), level: state.passed, closed, highestReport: link.highestReport };
  const message = {
    frame: 'ack',
    link: link.link,
    sequence: link.sequence,
    highest: link.highest,
    highestReport: link.highestReport,
    level: passed === undefined ? 0 : ALERT_LEVELS.indexOf(passed.level),
    leftTenths: next === undefined ? 0 : tenthsLeft(next, shownShift(state)?.dose ?? 0),
    closed,
  } as const;
  transmit(sealMessage(board.cipher, link, message), link.counter, message);
}
