// Guards ACC-2, TAL-1, TAL-2 and PAI-3: a tally goes to the wearable that its session was opened with, tells no less than
// the tallies before it and no more than the counter has counted; a sealed session's sums stand still.
// While a tool runs, its counter states its own sums only at starts and stops, so a tally is held against the next such
// statement here, and against the true handwork by another invariant.
import type { EventOf } from '../../trace/kinds.js';
import type { Invariant } from './invariant.js';
import type { SessionFacts } from './session-facts.js';
import { isLess, sessionText, sumsText } from './text.js';

export const tallyAsCounted: Invariant = {
  name: 'a tally tells what its counter counted',
  guards: ['ACC-2', 'TAL-1', 'TAL-2', 'PAI-3'],
  watch: (facts) => ({
    on: {
      'air.tally': (event) => {
        const session = facts.session(event.by, event.session);
        return session === undefined ? undefined : wrongTally(session, event);
      },
      'inner.count': (event) => {
        const session = facts.session(event.by, event.session);
        if (session === undefined) return `session ${event.session} of ${event.by} is counted and was never opened`;
        const counted = `${sessionText(session)} has counted ${sumsText(event)}`;
        if (isLess(event, session.told)) return `${counted}, but told ${sumsText(session.told)}`;
        if (isLess(event, session.counted)) return `${counted}, and before that ${sumsText(session.counted)}`;
        return undefined;
      },
    },
  }),
};

function wrongTally(session: SessionFacts, event: EventOf<'air.tally'>): string | undefined {
  if (session.worker !== event.to) {
    return `a tally of ${sessionText(session)}, opened with ${session.worker}, goes to ${event.to}`;
  }
  const fresh = event.sequence > session.toldSequence;
  if (fresh && isLess(event, session.told)) {
    return `${sessionText(session)} told ${sumsText(session.told)}, and after that ${sumsText(event)}`;
  }
  if (!fresh && isLess(session.told, event)) {
    return `${sessionText(session)} tells ${sumsText(event)} under an old number, under which it was less`;
  }
  if (session.state !== 'opened' && isLess(session.counted, event)) {
    return `${sessionText(session)} was sealed with ${sumsText(session.counted)}, and tells ${sumsText(event)}`;
  }
  return undefined;
}
