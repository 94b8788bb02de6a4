// Guards KEP-1, KEP-4 and TAL-2: while a counter counts it keeps at least every 10 s, so that a power failure takes no more than
// that; and once it has started again, its sums are exactly those that its journal held, or, where power failed within a write,
// those that were being written. A counter whose journal can keep nothing any more says so (KEP-4), and is not held to it.
import type { EventOf } from '../../trace/kinds.js';
import type { DeviceFacts } from './device-facts.js';
import type { Facts } from './facts.js';
import type { Invariant } from './invariant.js';
import { isSame, type SessionFacts, type Sums } from './session-facts.js';
import { sessionText, sumsText } from './text.js';

/** 10 s of trigger time. */
const MOST_WINDOWS = 100;
const NOTHING: Readonly<Sums> = { dose: 0, triggerWindows: 0, unratedWindows: 0 };

export const keptInTime: Invariant = {
  name: 'a power failure takes at most 10 s of trigger time',
  guards: ['KEP-1', 'KEP-4', 'TAL-2'],
  watch: (facts) => ({
    on: {
      'inner.kept': (event) => (facts.device(event.by).starting ? undefined : tooLate(facts, event)),
      'inner.count': (event) => {
        const session = facts.session(event.by, event.session);
        if (session === undefined) return undefined;
        return session.recounted ? tooLate(facts, event) : wrongSums(facts.device(event.by), session, event);
      },
      'flash.recovered': (event) => {
        const device = facts.device(event.by);
        if (!device.starting) return undefined;
        for (const session of facts.counters.get(event.by)?.sessions.values() ?? []) {
          const silent = !session.recounted && (session.session === 0 || session.found);
          const wrong = silent ? wrongSums(device, session, NOTHING) : undefined;
          if (wrong !== undefined) return wrong;
        }
        return undefined;
      },
    },
  }),
};

function tooLate(facts: Facts, event: EventOf<'inner.kept'> | EventOf<'inner.count'>): string | undefined {
  const session = facts.session(event.by, event.session);
  if (session === undefined || facts.device(event.by).journalFailed) return undefined;
  const windows = event.triggerWindows - session.kept.triggerWindows;
  if (windows <= MOST_WINDOWS) return undefined;
  return `${sessionText(session)} has counted ${windows / 10} s beyond what its journal holds`;
}

function wrongSums({ untold }: DeviceFacts, session: SessionFacts, found: Readonly<Sums>): string | undefined {
  const { kept, counted } = session;
  if (isSame(found, kept) || (untold && isSame(found, counted))) return undefined;
  const being = untold ? ` or ${sumsText(counted)}` : '';
  return `${sessionText(session)} starts again with ${sumsText(found)}, but had kept ${sumsText(kept)}${being}`;
}
