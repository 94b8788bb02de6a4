// Guards ACC-2 and TAL-3: an entry of a ledger keeps the largest value it was ever told, whatever comes late or twice.
import type { Invariant } from './invariant.js';
import { isLess, sessionText, sumsText } from './text.js';

export const ledgerNeverShrinks: Invariant = {
  name: 'a ledger never shrinks',
  guards: ['ACC-2', 'TAL-3'],
  watch: (facts) => ({
    on: {
      'inner.ledger': (event) => {
        const session = facts.session(event.counter, event.session);
        if (session === undefined || session.chargedTo !== event.by || !isLess(event, session.charged))
          return undefined;
        const before = sumsText(session.charged);
        return `${event.by}'s entry for ${sessionText(session)} fell from ${before} to ${sumsText(event)}`;
      },
    },
  }),
};
