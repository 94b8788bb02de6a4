// Guards PAI-3 and PAI-6: a session goes on until the next pairing, until its wearer's shift is over, or until nothing has run
// for six hours of the counter's clock. One that ends for no reason would leave what comes after it unclaimed.
import type { EventOf } from '../../trace/kinds.js';
import type { Facts } from './facts.js';
import type { Invariant } from './invariant.js';
import type { SessionFacts } from './session-facts.js';
import { sessionText } from './text.js';
import { isOver } from './worker-facts.js';

const IDLE_MS = 6 * 3_600_000;

/** A session that was sealed for no reason but a pairing, if the next one is opened at the same moment. */
interface Ended {
  readonly session: SessionFacts;
  readonly atMs: number;
}

export const sessionsEndForAReason: Invariant = {
  name: 'a session ends for a reason',
  guards: ['PAI-3', 'PAI-6', 'CLK-1'],
  watch: (facts) => {
    const ended = new Map<string, Ended>();
    return {
      on: {
        'inner.session': (event) => {
          if (event.what === 'delivered' || event.what === 'read out') return undefined;
          const before = ended.get(event.by);
          ended.delete(event.by);
          const session = event.what === 'sealed' ? facts.session(event.by, event.session) : undefined;
          if (session !== undefined && !hasReason(facts, session, event)) {
            ended.set(event.by, { session, atMs: event.at });
          }
          const followed = before === undefined || (event.what === 'opened' && event.at === before.atMs);
          return followed ? undefined : endedText(before);
        },
        'fault.cut': (event) => {
          // Within the pairing: the next one was being opened.
          const isWithin = event.during === 'write' || event.during === 'erase';
          if (isWithin && ended.get(event.by)?.atMs === event.at) ended.delete(event.by);
          return undefined;
        },
      },
      wrongAtEnd: () => [...ended.values()].map(endedText),
    };
  },
};

function hasReason(facts: Facts, session: SessionFacts, { by, at }: EventOf<'inner.session'>): boolean {
  const idleMs = facts.device(by).clock.most(session.changedMs, at);
  return isOver(facts.worker(session.worker), session.shift, at) || idleMs >= IDLE_MS;
}

function endedText({ session }: Ended): string {
  return `${sessionText(session)} ended, though ${session.worker}'s shift went on and nobody paired`;
}
