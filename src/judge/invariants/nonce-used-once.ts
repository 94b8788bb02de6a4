// Guards TAL-2: a sequence number of a session and direction is never used for two different frames, not after a power failure
// either; with a key it makes the nonce, and a nonce that is used twice gives the key away.
import type { EventOf } from '../../trace/kinds.js';
import { getOrMake } from './get-or-make.js';
import type { Invariant } from './invariant.js';
import type { SessionFacts } from './session-facts.js';

export const nonceUsedOnce: Invariant = {
  name: 'no number is used for two frames',
  guards: ['TAL-2'],
  watch: (facts) => {
    /** Of each session: the bytes of its acknowledgements by their numbers. */
    const acks = new Map<SessionFacts, Map<number, string>>();
    const judgeTold = (event: EventOf<'air.tally'> | EventOf<'air.report'>): string | undefined => {
      const before = facts.session(event.by, event.session)?.frames.get(event.sequence);
      return before === undefined || before.bytes === event.bytes ? undefined : text(event, event.session);
    };
    return {
      on: {
        'air.tally': judgeTold,
        'air.report': judgeTold,
        'air.ack': (event) => {
          const session = facts.counter(event.to).links.get(event.link);
          if (session === undefined) return undefined;
          const used = getOrMake(acks, session, newMap);
          const before = used.get(event.sequence);
          if (before === undefined) used.set(event.sequence, event.bytes);
          return before === undefined || before === event.bytes ? undefined : text(event, session.session);
        },
      },
    };
  },
};

function text({ by, to, sequence }: { by: string; to: string; sequence: number }, session: number): string {
  return `${by} has numbered two frames of session ${session} to ${to} ${sequence}`;
}

function newMap(): Map<number, string> {
  return new Map();
}
