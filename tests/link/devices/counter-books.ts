// What a counter says of its sessions, read from outside.
import { type Report, TALLY_FLAGS, type Tally } from '../../../src/link/messages.js';
import type { CounterRig } from '../../rig/counter-rig.js';
import { type Frame, framesBy } from '../../rig/site.js';
import type { Kept } from './counter-rules.js';

/** The session that is open, the magnitude, and the sums of every session that is kept, 0 for the unclaimed. */
export interface Books {
  session: number;
  readonly magnitudeTenths: number;
  readonly sums: Map<number, readonly number[]>;
}

export function booksOf(rig: CounterRig): Books {
  const { session, magnitudeTenths, others, ...own } = rig.observe();
  const sums = [{ ...own, session }, ...others].map(
    (one) => [one.session, [one.dose, one.triggerWindows, one.unratedWindows]] as const,
  );
  return { session, magnitudeTenths, sums: new Map(sums) };
}

export function textOf({ session, magnitudeTenths, sums }: Books): string {
  return JSON.stringify([session, magnitudeTenths, [...sums].sort(([one], [other]) => one - other)]);
}

/** A session is sealed as its last tally and, where there is one, the report just before it; null before they are told. */
export function sealedAs({ site, id }: CounterRig, { link, sinceMs }: Kept): Kept['sealed'] {
  const isOwn = (sent: Frame, told: Tally | Report) => sent.atMs >= sinceMs && told.link === link;
  const tallies = framesBy(site, id, 'tally').filter((sent) => isOwn(sent, sent.message));
  const last = tallies.find(({ message }) => (message.flags & TALLY_FLAGS.sealed) !== 0);
  if (last === undefined) return null;
  const tally = last.message.sequence;
  const reports = framesBy(site, id, 'report').filter((sent) => isOwn(sent, sent.message));
  return { tally, report: reports.some(({ message }) => message.sequence === tally - 1) ? tally - 1 : 0 };
}
