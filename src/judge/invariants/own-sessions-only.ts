// Guards PAI-3, PAI-4 and WEA-3: a worker is charged the sessions opened with that worker's wearable and no other, in the
// shift in which they were paired; unclaimed dose is charged to nobody. So nothing is charged twice: what stood on two ledgers, or
// in two shifts, would stand on one to which it does not belong.
import type { EventOf } from '../../trace/kinds.js';
import type { Facts } from './facts.js';
import type { Invariant } from './invariant.js';
import { sessionText } from './text.js';

export const ownSessionsOnly: Invariant = {
  name: "nothing is charged twice: a ledger holds only its wearer's sessions, each in its shift",
  guards: ['PAI-3', 'PAI-4', 'WEA-3'],
  watch: (facts) => ({
    on: {
      'inner.ledger': (event) => wrongShift(facts, event),
      // A key goes to the shift that is open, or to the next.
      'inner.paired': (event) => {
        const { shift, closedMs } = facts.worker(event.by);
        const expected = closedMs === Number.POSITIVE_INFINITY ? shift : shift + 1;
        if (facts.device(event.by).starting || event.shift === expected) return undefined;
        return `${event.by} keeps the key of session ${event.session} of ${event.counter} for shift ${event.shift}`;
      },
    },
  }),
};

function wrongShift(facts: Facts, event: EventOf<'inner.ledger'>): string | undefined {
  const session = facts.session(event.counter, event.session);
  if (session === undefined) return undefined;
  if (session.worker !== event.by) {
    const owner = session.worker === '' ? 'belongs to nobody' : `was opened with ${session.worker}`;
    return `${event.by} is charged for ${sessionText(session)}, which ${owner}`;
  }
  if (event.shift === session.shift) return undefined;
  return `${sessionText(session)} is charged to shift ${event.shift} of ${event.by}, in which it was not paired`;
}
