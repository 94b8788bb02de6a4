// What the wearable makes of a frame (TAL-3, TAL-4, TAL-5, TRG-3, PAI-1).
import { ALERT_LEVELS, type Message, TALLY_FLAGS, type Tally } from '../link/messages.js';
import { callLevels } from './alerts.js';
import { merge } from './ledger.js';
import { tenthsLeft } from './levels.js';
import type { Parts } from './parts.js';
import { addToShift, isOver, shownShift } from './shifts.js';
import type { Link } from './state.js';
import { markStale, newestOf, noteRunning, planCheck } from './watch.js';

/** Why a shift is marked incomplete, by the flag of the tally that told. */
const INCOMPLETE_BY = [
  [TALLY_FLAGS.shortBursts, 'short bursts'],
  [TALLY_FLAGS.sensorFault, 'sensor fault'],
  [TALLY_FLAGS.journalFault, 'journal fault'],
  [TALLY_FLAGS.powerLost, 'power lost'],
  [TALLY_FLAGS.saturated, 'saturated'],
] as const;

/** Takes a frame in; returns why it was refused, or ''. */
export function take(parts: Parts, message: Message, from: number): string {
  const { state } = parts;
  switch (message.frame) {
    case 'tally':
    case 'report': {
      // Names of links may come again once a session is delivered: the newest one counts.
      const link = state.links.findLast((kept) => kept.link === message.link && kept.counter === from);
      if (link === undefined) return 'foreign';
      if (message.frame === 'tally') takeTally(parts, link, message);
      else link.highestReport = Math.max(link.highestReport, message.sequence);
      return '';
    }
    case 'ack':
    case 'hello':
      return 'unexpected';
    case 'accept':
      if (message.wearable !== state.id) return 'foreign';
      parts.send({ type: 'ACCEPT', from, link: message.link });
      return '';
    default:
      if (message.wearable !== state.id || state.pairing?.peer !== from) return 'foreign';
      if (message.frame === 'refuse') parts.send({ type: 'REFUSE', reason: message.reason });
      else parts.send({ type: 'ANSWER', nonce: message.nonce, link: message.link, session: message.session });
      return '';
  }
}

function takeTally(parts: Parts, link: Link, tally: Tally): void {
  const { state, inner } = parts;
  if (!link.confirmed) confirm(parts, link);
  hear(parts, link, tally);
  const { dose, triggerWindows, unratedWindows } = link;
  if (merge(link, tally)) {
    if (link.triggerWindows > triggerWindows && !isOver(state, link.shift)) parts.send({ type: 'RAN' });
    const total = addToShift(state, link, link.dose - dose, link.unratedWindows - unratedWindows);
    inner.ledger(link, total);
    if (link.shift === shownShift(state)?.shift) callLevels(parts, total);
  }
  acknowledge(parts, link);
}

/** The first tally shows that the counter has opened the session; the shift in which it was paired opens with it (WEA-3). */
function confirm({ state, board, send }: Parts, link: Link): void {
  const before = newestOf(state, link.counter);
  link.confirmed = true;
  if (before?.stale === true && newestOf(state, link.counter) === link) board.mark(link.counter, 'stale', false);
  if (!isOver(state, link.shift) || link.shift > state.lastShift) send({ type: 'PAIRED' });
}

/** What a tally says of the counter's present state; one heard before, or older than the last, says nothing new of that. */
function hear(parts: Parts, link: Link, tally: Tally): void {
  markIncomplete(parts, link, tally.flags & ~link.flags);
  link.flags |= tally.flags;
  if (tally.sequence <= link.highest) return;
  link.highest = tally.sequence;
  link.heardMs = parts.nowMs();
  const running = (tally.flags & TALLY_FLAGS.running) !== 0;
  const sealed = (tally.flags & TALLY_FLAGS.sealed) !== 0;
  const changed = link.running !== running || link.sealed !== sealed || link.stale;
  link.running = running;
  link.sealed = sealed;
  if (link.stale) markStale(parts, link, false);
  if (changed) noteRunning(parts);
  planCheck(parts);
}

function markIncomplete({ state, inner }: Parts, link: Link, newFlags: number): void {
  if (newFlags === 0) return;
  const shift = state.shifts.find((kept) => kept.shift === link.shift);
  if (shift === undefined) return;
  for (const [flag, why] of INCOMPLETE_BY) {
    if ((newFlags & flag) === 0) continue;
    shift.incomplete = true;
    inner.incomplete(shift.shift, link.counter, why);
  }
}

function acknowledge({ state, levels, board }: Parts, link: Link): void {
  const next = levels[state.passed];
  const passed = levels[state.passed - 1];
  link.sequence += 1;
  board.send(
    {
      frame: 'ack',
      link: link.link,
      sequence: link.sequence,
      highest: link.highest,
      highestReport: link.highestReport,
      level: passed === undefined ? 0 : ALERT_LEVELS.indexOf(passed.level),
      leftTenths: next === undefined ? 0 : tenthsLeft(next, shownShift(state)?.dose ?? 0),
      closed: isOver(state, link.shift),
    },
    link.counter,
  );
}
