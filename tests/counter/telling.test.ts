// TAL-2, ACC-2: the ends of the sequence and of the dose, which no day on the bench reaches.
import { expect, test } from 'vitest';
import { newFlash, SimFlash } from '../../sim/flash/flash.js';
import { RandomStream } from '../../sim/kernel/random.js';
import { LAST_SEQUENCE } from '../../src/counter/journal.js';
import type { Parts } from '../../src/counter/parts.js';
import { openSession, seal } from '../../src/counter/sessions.js';
import { freshState, type OpenSession } from '../../src/counter/state.js';
import { makeTally, tell } from '../../src/counter/telling.js';
import { Journal } from '../../src/journal/journal.js';
import { NO_KEYS } from '../../src/link/cipher.js';
import { TALLY_FLAGS } from '../../src/link/messages.js';
import type { Message } from '../../src/link/pairing-messages.js';
import { FULL_MV } from '../rig/device-rig.js';

interface Fixture extends Parts {
  readonly sent: Message[];
  readonly events: string[];
  readonly open: OpenSession;
}

/** The parts of a counter with an open session, for what a day cannot reach. */
function partsWithSession(): Fixture {
  const state = freshState(1, FULL_MV);
  const flash = new SimFlash(newFlash(RandomStream.named(1, 'flash')));
  const sent: Message[] = [];
  const events: string[] = [];
  const nothing = () => {};
  const sums = { kept: nothing, count: nothing, magnitude: nothing };
  const inner = { state: nothing, recovered: nothing, session: nothing, found: nothing, ...sums };
  const board = { flash, cipher: NO_KEYS, show: nothing, send: nothing, refused: nothing, record: nothing };
  const parts: Parts = {
    state,
    journal: Journal.open(flash),
    board: { ...board, random: () => 0, inner },
    transmit: (_, __, message) => sent.push(message),
    nowMs: () => 0,
    send: ({ type }) => events.push(type),
    post: nothing,
  };
  const key = new Uint8Array(16);
  const rest = { secret: key, publicKey: key, nonce: key, peerKey: null, peerNonce: null, digits: -1 };
  openSession(parts, { peer: 11, link: 7, session: 1, key, ...rest });
  return { ...parts, sent, events, open: state.open! };
}

test('TAL-2: an exhausted sequence seals the session, with numbers kept for its last frames', () => {
  const parts = partsWithSession();
  const { open, sent, events } = parts;
  open.sums.shortBursts = 1;
  open.sequence = LAST_SEQUENCE - 8;
  open.reserved = LAST_SEQUENCE;
  for (let told = 0; events.length === 0; told++) {
    expect(told).toBeLessThan(10);
    tell(parts);
  }
  expect(events).toEqual(['CLOSED']);
  expect(sent.length).toBeGreaterThan(0);
  seal(parts);
  const last = parts.state.sealed[0]!.frames.map(({ message }) => message);
  expect(last.map(({ frame }) => frame)).toEqual(['report', 'tally']);
  const sequences = [...sent, ...last].map((message) => ('sequence' in message ? message.sequence : 0));
  expect(new Set(sequences).size).toBe(sequences.length);
  expect(Math.max(...sequences)).toBeLessThanOrEqual(LAST_SEQUENCE);
});

test('ACC-2: a saturated session says so in its tally', () => {
  const parts = partsWithSession();
  const { open } = parts;
  const flagsAt = (dose: number): number => {
    open.sums.dose = dose;
    const { message } = makeTally(parts, open, open.sums, false);
    return message.frame === 'tally' ? message.flags : 0;
  };
  expect(flagsAt(2 ** 52 - 2) & TALLY_FLAGS.saturated).toBe(0);
  expect(flagsAt(2 ** 52 - 1) & TALLY_FLAGS.saturated).toBe(TALLY_FLAGS.saturated);
});
