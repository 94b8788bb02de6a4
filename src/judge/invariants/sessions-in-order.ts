// Guards PAI-3 and PAI-5: session numbers only grow, one session is open at a time, a sealed one is kept until it is delivered,
// at most 32 are kept, and one that is let go has all that it counted on its ledger.
import type { EventOf } from '../../trace/kinds.js';
import type { Facts } from './facts.js';
import type { Invariant } from './invariant.js';
import { isLess, sessionText, sumsText } from './text.js';

const MAX_SEALED = 32;

export const sessionsInOrder: Invariant = {
  name: 'sessions follow each other, and none is let go before it is delivered',
  guards: ['PAI-3', 'PAI-5'],
  watch: (facts) => {
    const sealed = new Map<string, number>();
    return {
      on: {
        'inner.session': (event) => {
          const kept =
            (sealed.get(event.by) ?? 0) + (event.what === 'sealed' ? 1 : event.what === 'delivered' ? -1 : 0);
          sealed.set(event.by, kept);
          if (kept > MAX_SEALED) return `${event.by} keeps ${kept} sealed sessions`;
          return event.what === 'opened' ? wrongOpening(facts, event) : wrongTurn(facts, event);
        },
      },
    };
  },
};

function wrongOpening(facts: Facts, event: EventOf<'inner.session'>): string | undefined {
  const { open, lastSession } = facts.counter(event.by);
  if (open.session !== 0) return `${event.by} opens session ${event.session} while ${sessionText(open)} is open`;
  if (event.session > lastSession) return undefined;
  return `${event.by} opens session ${event.session} after session ${lastSession}`;
}

function wrongTurn(facts: Facts, event: EventOf<'inner.session'>): string | undefined {
  const session = facts.session(event.by, event.session);
  const before = event.what === 'sealed' ? 'opened' : 'sealed';
  if (session?.state !== before) {
    return `session ${event.session} of ${event.by} is ${event.what}, but was ${session?.state ?? 'never opened'}`;
  }
  if (event.what === 'sealed' || !isLess(session.charged, session.counted)) return undefined;
  const { charged, counted } = session;
  return `${sessionText(session)} is let go with ${sumsText(counted)}, of which the ledger has ${sumsText(charged)}`;
}
