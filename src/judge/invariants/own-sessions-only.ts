// Guards PAI-3, PAI-4 and WEA-3: a worker is charged the sessions opened with that worker's wearable and no other, in the
// shift in which they were paired; unclaimed dose is charged to nobody.
import type { Invariant } from './invariant.js';
import { sessionText } from './text.js';

export const ownSessionsOnly: Invariant = {
  name: "a ledger holds only its wearer's sessions",
  guards: ['PAI-3', 'PAI-4', 'WEA-3'],
  watch: (facts) => ({
    on: {
      'inner.ledger': (event) => {
        const session = facts.session(event.counter, event.session);
        if (session === undefined) return undefined;
        if (session.worker !== event.by) {
          const owner = session.worker === '' ? 'belongs to nobody' : `was opened with ${session.worker}`;
          return `${event.by} is charged for ${sessionText(session)}, which ${owner}`;
        }
        if (event.shift >= session.earliestShift && event.shift <= facts.worker(event.by).shift) return undefined;
        return `${sessionText(session)} is charged to shift ${event.shift} of ${event.by}, in which it was not paired`;
      },
    },
  }),
};
