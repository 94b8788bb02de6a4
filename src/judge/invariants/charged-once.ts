// Guards TAL-3, PAI-3 and WEA-3: nothing is charged twice. A session stands on one worker's ledger, in one shift.
import type { Invariant } from './invariant.js';
import { sessionText } from './text.js';

export const chargedOnce: Invariant = {
  name: 'nothing is charged twice',
  guards: ['TAL-3', 'PAI-3', 'WEA-3'],
  watch: (facts) => ({
    on: {
      'inner.ledger': (event) => {
        const session = facts.session(event.counter, event.session);
        if (session === undefined || session.chargedTo === '') return undefined;
        if (session.chargedTo !== event.by) {
          return `${sessionText(session)} is charged to ${event.by} and to ${session.chargedTo}`;
        }
        if (session.chargedShift !== event.shift) {
          return `${sessionText(session)} is charged to shifts ${session.chargedShift} and ${event.shift} of ${event.by}`;
        }
        return undefined;
      },
    },
  }),
};
