// Happenings that an expectation can be about: alerts, frames in the air, and whatever else the trace has events of.
import { nameOf, nameUsed } from '../fields/text.js';
import { type Subject, subject } from './subject.js';

/** `any` is every level. */
export const alert = subject(
  'alert',
  nameUsed('level', 'an alert level, or "any"', ['any']),
  { on: nameOf('worker') },
  'no',
  ({ value }, { on }) => ({ happening: { of: 'alert', level: value === 'any' ? null : value, worker: on.value } }),
);

export const message = subject(
  'message',
  nameUsed('frame', 'a kind of frame'),
  { by: nameOf('tool or worker').optional(), to: nameOf('tool or worker').optional() },
  'no',
  ({ value: frame }, { by, to }) => ({
    happening: { of: 'message', frame, from: by?.value ?? null, to: to?.value ?? null },
  }),
);

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
