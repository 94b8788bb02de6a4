// Guards ACC-2, TAL-1, TAL-2, KEP-1 and PAI-3: a tally goes to the wearable that its session was opened with, tells no less than
// the tallies before it and no more than its counter's journal holds; a sealed session's sums stand still; and what was told or
// kept is never counted less, not after a power failure either.
import type { EventOf } from '../../trace/kinds.js';
import type { Facts } from './facts.js';
import type { Invariant } from './invariant.js';
import type { SessionFacts } from './session-facts.js';
import { TALLY_FLAG } from './tally-flags.js';
import { isLess, sessionText, sumsText } from './text.js';

export const tallyAsCounted: Invariant = {
  name: 'a tally tells what its counter counted',
  guards: ['ACC-2', 'TAL-1', 'TAL-2', 'KEP-1', 'PAI-3'],
  watch: (facts) => ({
    on: {
      'air.tally': (event) => {
        const session = facts.session(event.by, event.session);
        return session === undefined ? undefined : wrongTally(facts, session, event);
      },
      'inner.count': (event) => wrongCount(facts, event),
      'inner.kept': (event) => {
        const session = facts.session(event.by, event.session);
        if (session === undefined || !isLess(event, session.kept)) return undefined;
        return `${sessionText(session)} has kept ${sumsText(event)}, and before that ${sumsText(session.kept)}`;
      },
    },
  }),
};

function wrongCount(facts: Facts, event: EventOf<'inner.count'>): string | undefined {
  const session = facts.session(event.by, event.session);
  if (session === undefined) {
    // Power may fail while a session is being opened: it has counted nothing yet.
    if (event.triggerWindows === 0) return undefined;
    return `session ${event.session} of ${event.by} is counted and was never opened`;
  }
  const counted = `${sessionText(session)} has counted ${sumsText(event)}`;
  if (isLess(event, session.told)) return `${counted}, but told ${sumsText(session.told)}`;
  if (isLess(event, session.kept)) return `${counted}, but kept ${sumsText(session.kept)}`;
  if (session.recounted && isLess(event, session.counted)) {
    return `${counted}, and before that ${sumsText(session.counted)}`;
  }
  return undefined;
}

function wrongTally(facts: Facts, session: SessionFacts, event: EventOf<'air.tally'>): string | undefined {
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
  if (!facts.counter(event.by).tellsKept) return undefined;
  if (isLess(session.kept, event)) {
    return `${sessionText(session)} tells ${sumsText(event)}, and its journal holds ${sumsText(session.kept)}`;
  }
  const isSealed = (event.flags & TALLY_FLAG.sealed) !== 0;
  if (!isSealed || session.keptMs >= session.sealedMs) return undefined;
  return `${sessionText(session)} tells that it is sealed, and its journal does not hold that yet`;
}
