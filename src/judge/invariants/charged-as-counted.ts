// Guards TAL-3 and TAL-4: an entry of a ledger holds nothing that its counter has not told, as far as it told it.
import type { Invariant } from './invariant.js';
import { isLess, sessionText, sumsText } from './text.js';

export const chargedAsCounted: Invariant = {
  name: 'a ledger holds only what its counters counted',
  guards: ['TAL-3', 'TAL-4'],
  watch: (facts) => ({
    on: {
      'inner.ledger': (event) => {
        const session = facts.session(event.counter, event.session);
        if (session === undefined)
          return `session ${event.session} of ${event.counter} is charged and was never opened`;
        if (!isLess(session.told, event)) return undefined;
        return `${event.by} is charged ${sumsText(event)} for ${sessionText(session)}, which told ${sumsText(session.told)}`;
      },
    },
  }),
};
