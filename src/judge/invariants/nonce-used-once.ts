// Guards TAL-2: a sequence number of a session and direction is never used for two different frames, not after a power failure
// either; with a key it makes the nonce, and a nonce that is used twice gives the key away.
import type { EventOf } from '../../trace/kinds.js';
import type { Invariant } from './invariant.js';

type Sealed = EventOf<'air.tally'> | EventOf<'air.report'> | EventOf<'air.ack'>;

export const nonceUsedOnce: Invariant = {
  name: 'no number is used for two frames',
  guards: ['TAL-2'],
  watch: (facts) => {
    /** Bytes, by who sent them in which session under which number. */
    const used = new Map<string, string>();
    const judge = (event: Sealed, session: number): string | undefined => {
      const name = `${event.by} ${event.to} ${event.link} ${session} ${event.sequence}`;
      const before = used.get(name);
      if (before === undefined) used.set(name, event.bytes);
      if (before === undefined || before === event.bytes) return undefined;
      return `${event.by} has numbered two frames of session ${session} to ${event.to} ${event.sequence}`;
    };
    return {
      on: {
        'air.tally': (event) => judge(event, event.session),
        'air.report': (event) => judge(event, event.session),
        'air.ack': (event) => judge(event, facts.counter(event.to).links.get(event.link)?.session ?? 0),
      },
    };
  },
};
