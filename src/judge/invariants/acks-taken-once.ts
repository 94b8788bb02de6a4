// Guards TAL-4 and TAL-5: a counter takes an acknowledgement of its open session once, and none that is older than one that it has
// taken, not after a power failure either: whoever says an old one again is refused, and nobody sees old advice.
import type { EventOf } from '../../trace/kinds.js';
import type { Facts } from './facts.js';
import type { Invariant } from './invariant.js';
import type { SessionFacts } from './session-facts.js';
import { sessionText } from './text.js';

interface Heard {
  readonly heard: EventOf<'air.heard'>;
  readonly ack: EventOf<'air.ack'>;
  readonly session: SessionFacts;
}

export const acksTakenOnce: Invariant = {
  name: 'an acknowledgement is taken once',
  guards: ['TAL-4', 'TAL-5'],
  watch: (facts) => {
    /** By session: the highest number taken. */
    const taken = new Map<SessionFacts, number>();
    let last: Heard | undefined;
    const take = (): string | undefined => {
      if (last === undefined) return undefined;
      const { ack, session } = last;
      last = undefined;
      const highest = taken.get(session) ?? 0;
      if (ack.sequence > highest) taken.set(session, ack.sequence);
      else return `${ack.to} takes acknowledgement ${ack.sequence} of ${sessionText(session)} after ${highest}`;
      return undefined;
    };
    return {
      onAny: (event) => {
        if (last === undefined) return undefined;
        const isRefused = event.kind === 'air.refused' && event.cause === last.heard.n;
        if (isRefused) last = undefined;
        return isRefused ? undefined : take();
      },
      on: {
        'air.heard': (event) => {
          last = heardAck(facts, event);
          return undefined;
        },
      },
      wrongAtEnd: () => [take()].filter((wrong) => wrong !== undefined),
    };
  },
};

function heardAck(facts: Facts, heard: EventOf<'air.heard'>): Heard | undefined {
  if (!facts.device(heard.by).awake) return undefined;
  const ack = facts.sent.heard(heard);
  if (ack?.kind !== 'air.ack') return undefined;
  const session = facts.counter(heard.by).links.get(ack.link);
  return session?.state === 'opened' ? { heard, ack, session } : undefined;
}
