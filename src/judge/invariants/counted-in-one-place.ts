// Guards PAI-3, PAI-4 and PAI-6: every u counted is in exactly one place. A counter adds only to the session that is open, or to
// the unclaimed where none is; what a session has counted is on its worker's ledger or on its way there, as the other invariants
// of the ledger say; and the unclaimed that a report tells of is what its journal holds of what was counted outside any session.
import { unclaimedOf } from './counter-facts.js';
import type { Invariant } from './invariant.js';
import { isLess, sessionText } from './text.js';

export const countedInOnePlace: Invariant = {
  name: 'every u is counted in one place',
  guards: ['PAI-3', 'PAI-4', 'PAI-6'],
  watch: (facts) => ({
    on: {
      'inner.count': (event) => {
        const counter = facts.counter(event.by);
        const session = facts.session(event.by, event.session);
        if (session === undefined || session === counter.open || !isLess(session.counted, event)) return undefined;
        return `${event.by} counts into ${sessionText(session)}, while ${sessionText(counter.open)} is what is open`;
      },
      'air.report': (event) => {
        const counter = facts.counter(event.by);
        const { dose, triggerWindows } = unclaimedOf(counter).kept;
        if (!counter.tellsKept) return undefined;
        if (event.unclaimedDose <= dose && event.unclaimedWindows <= triggerWindows) return undefined;
        const told = `${event.unclaimedDose} u in ${event.unclaimedWindows} windows`;
        return `${event.by} reports ${told} unclaimed, and has kept ${dose} u in ${triggerWindows} windows so`;
      },
    },
  }),
};
