// Happenings that an expectation can be about: alerts, frames in the air, and whatever else the trace has events of.
import type { Found } from '../fields/field.js';
import { nameOf, nameUsed } from '../fields/text.js';
import type { Scope } from '../scope.js';
import { type Subject, subject } from './subject.js';

/** `any` is every level. */
export const alert = subject(
  'alert',
  nameUsed('level', 'an alert level, or "any"', ['any']),
  { on: nameOf('worker') },
  'no',
  ({ value }, { on }) => ({ happening: { of: 'alert', level: value === 'any' ? null : value, worker: on.value } }),
);

/** Frames that one of the two alone sends; accept and refuse come from both. src/link/pairing-messages.ts has them all. */
export const ONLY_SENDER: Readonly<Record<string, Side>> = {
  ...{ hello: 'wearable', answer: 'counter', nonce: 'wearable', reveal: 'counter' },
  ...{ tally: 'counter', report: 'counter', ack: 'wearable' },
};

type Side = 'counter' | 'wearable';

/** What names a device, and what the other side is. */
const SIDES = {
  counter: { owner: 'tool', other: 'wearable' },
  wearable: { owner: 'worker', other: 'counter' },
} as const;

export const message = subject(
  'message',
  nameUsed('frame', 'a kind of frame'),
  { by: nameOf('tool or worker').optional(), to: nameOf('tool or worker').optional() },
  'no',
  ({ value: frame }, { by, to }, { scope }) => {
    const sender = ONLY_SENDER[frame];
    if (sender !== undefined) {
      refuseSide(by, SIDES[sender].other, `never sends this: ${frame} comes from a ${sender}`, scope);
      refuseSide(to, sender, `never gets this: ${frame} comes from a ${sender}`, scope);
    }
    return { happening: { of: 'message', frame, from: by?.value ?? null, to: to?.value ?? null } };
  },
);

/** Reports a name of the side that can have no part in it: never would hold for ever, and within never. */
function refuseSide(name: Found<string> | undefined, side: Side, why: string, scope: Scope): void {
  if (name === undefined) return;
  const isOne = side === 'counter' ? scope.isTool(name.value) : scope.isWorker(name.value);
  if (!isOne) return;
  const { other } = SIDES[side];
  const expected = `the name of a ${SIDES[other].owner}, for its ${other}`;
  scope.problems.at(name.node, 'unexpected', `a ${side} ${why}`, expected);
}

/** Any event of the trace by its kind. */
export const event = subject(
  'event',
  nameUsed('event', 'a kind of event of the trace, such as hand.stop'),
  { by: nameOf('tool or worker').optional() },
  'no',
  ({ value: kind }, { by }) => ({ happening: { of: 'event', kind, by: by?.value ?? null } }),
);

/** What people do, by its own word: the kind of event, and whose name stands behind the word. */
const DEEDS = {
  leave: ['hand.leave', 'tool or worker'],
  return: ['hand.return', 'tool or worker'],
  start: ['hand.start', 'worker'],
  stop: ['hand.stop', 'worker'],
  press: ['hand.press', 'tool'],
  turn: ['hand.turn', 'tool'],
  touch: ['hand.touch', 'worker'],
  tap: ['hand.tap', 'worker'],
  readout: ['hand.readout', 'tool or worker'],
} as const;

export const DEED_SUBJECTS: readonly Subject[] = Object.entries(DEEDS).map(([word, [kind, named]]) =>
  subject(word, nameOf(named), {}, 'no', ({ value }) => ({ happening: { of: 'event', kind, by: value } })),
);
