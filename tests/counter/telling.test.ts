// TAL-2, ACC-2: the ends of the sequence and of the dose, which no day on the bench reaches.
import { expect, test } from 'vitest';
import type { Parts } from '../../src/counter/parts.js';
import { openSession } from '../../src/counter/sessions.js';
import { freshState } from '../../src/counter/state.js';
import { makeReport, makeTally, tell } from '../../src/counter/telling.js';
import { type Message, TALLY_FLAGS } from '../../src/link/messages.js';

/** The parts of a counter with an open session, for what a day cannot reach. */
function partsWithSession(): Parts & { readonly sent: Message[]; readonly events: string[] } {
  const state = freshState(1, 50);
  openSession(state, { peer: 11, link: 7, session: 1, nonce: 0, digits: -1 });
  const sent: Message[] = [];
  const events: string[] = [];
  const board = { show: () => {}, send: (message: Message) => sent.push(message), refused: () => {}, random: () => 0 };
  const inner = { state: () => {}, count: () => {}, magnitude: () => {}, session: () => {} };
  return { state, board, inner, nowMs: () => 0, send: ({ type }) => events.push(type), sent, events };
}

test('TAL-2: an exhausted sequence seals the session, with numbers kept for its last frames', () => {
  const parts = partsWithSession();
  const open = parts.state.open!;
  open.sums.shortBursts = 1;
  open.sequence = 2 ** 32 - 8;
  for (let told = 0; parts.events.length === 0; told++) {
    expect(told).toBeLessThan(10);
    tell(parts);
  }
  expect(parts.events).toEqual(['CLOSED']);
  makeReport(parts.state, open);
  expect(makeTally(parts.state, open, true).sequence).toBeLessThanOrEqual(2 ** 32 - 1);
});

test('ACC-2: a saturated session says so in its tally', () => {
  const parts = partsWithSession();
  const open = parts.state.open!;
  open.sums.dose = 2 ** 52 - 2;
  expect(makeTally(parts.state, open, false).flags & TALLY_FLAGS.saturated).toBe(0);
  open.sums.dose = 2 ** 52 - 1;
  expect(makeTally(parts.state, open, false).flags & TALLY_FLAGS.saturated).toBe(TALLY_FLAGS.saturated);
});
