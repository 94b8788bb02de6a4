// Quantities that an expectation can be about: a number at every moment of the day.
import { integer } from '../fields/number.js';
import { nameOf, nameUsed } from '../fields/text.js';
import { subject } from './subject.js';

/** Sessions of a counter are numbered from 1; nobody pairs more often in a day. */
const MAX_SESSION = 1_000_000;

const session = { session: integer(1, MAX_SESSION, 'the number of a session').optional() };

export const points = subject('points', nameOf('worker'), {}, 'yes', ({ value }) => ({
  quantity: { of: 'points', worker: value },
  unit: 'decimal',
}));

/** Of a tool what its counter counted, of a worker what stands in the ledger. */
export const dose = subject('dose', nameOf('tool or worker'), session, 'yes', ({ value }, fields, { scope }) => {
  const number = fields.session ?? null;
  if (!scope.isWorker(value)) {
    return { quantity: { of: 'counter dose', tool: value, session: number?.value ?? null }, unit: 'whole' };
  }
  if (number === null) return { quantity: { of: 'ledger dose', worker: value }, unit: 'whole' };
  scope.problems.at(number.node, 'unexpected', 'a worker has no sessions', 'a session is one of a tool');
  return null;
});

export const triggerTime = subject('trigger time', nameOf('tool'), session, 'yes', ({ value }, fields) => ({
  quantity: { of: 'trigger time', tool: value, session: fields.session?.value ?? null },
  unit: 'duration',
}));

export const unratedTime = subject('unrated time', nameOf('tool'), session, 'yes', ({ value }, fields) => ({
  quantity: { of: 'unrated time', tool: value, session: fields.session?.value ?? null },
  unit: 'duration',
}));

export const unclaimedDose = subject('unclaimed dose', nameOf('tool'), {}, 'yes', ({ value }) => ({
  quantity: { of: 'unclaimed dose', tool: value },
  unit: 'whole',
}));

export const shortBursts = subject('short bursts', nameOf('tool'), {}, 'yes', ({ value }) => ({
  quantity: { of: 'short bursts', tool: value },
  unit: 'whole',
}));

/** Of a counter's display: the minutes left, or in the review the points of ten minutes. */
export const secondNumber = subject('second number', nameOf('tool'), {}, 'yes', ({ value }) => ({
  quantity: { of: 'second number', tool: value },
  unit: 'whole',
}));

/** Of what a counter's last report told. */
export const powerLosses = subject('power losses', nameOf('tool'), {}, 'yes', ({ value }) => ({
  quantity: { of: 'power losses', tool: value },
  unit: 'whole',
}));

/** Of what a device told when it last started. */
export const tornRecords = subject('torn records', nameOf('tool or worker'), {}, 'yes', ({ value }) => ({
  quantity: { of: 'torn records', device: value },
  unit: 'whole',
}));

export const retiredPages = subject('retired pages', nameOf('tool or worker'), {}, 'yes', ({ value }) => ({
  quantity: { of: 'retired pages', device: value },
  unit: 'whole',
}));

const reason = { reason: nameUsed('refusal', 'the reason under which a dropped frame is counted').optional() };

export const refusedFrames = subject(
  'refused frames',
  nameOf('tool or worker'),
  reason,
  'yes',
  ({ value }, fields) => ({
    quantity: { of: 'refused frames', device: value, reason: fields.reason?.value ?? null },
    unit: 'whole',
  }),
);
