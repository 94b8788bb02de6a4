// Guards ACC-2, TAL-3, KEP-1 and WEA-5: an entry of a ledger keeps the largest value it was ever told, whatever comes late or twice,
// and whatever fails: a wearable that starts again has all of it that it acknowledged, and all that it told while its journal
// could be written. What it took in while a page was erased (KEP-5) it may lack: its counter has that still, and tells it again.
import type { Facts } from './facts.js';
import type { Invariant } from './invariant.js';
import type { SessionFacts, Sums } from './session-facts.js';
import { isLess, sessionText, sumsText } from './text.js';
import { MOST_ENTRIES } from './worker-facts.js';
import { chargedTo } from './worker-updates.js';

const NOTHING: Readonly<Sums> = { dose: 0, triggerWindows: 0, unratedWindows: 0 };

export const ledgerNeverShrinks: Invariant = {
  name: 'a ledger never shrinks',
  guards: ['ACC-2', 'TAL-3', 'KEP-1', 'WEA-5'],
  watch: (facts) => ({
    on: {
      'inner.ledger': (event) => {
        const session = facts.session(event.counter, event.session);
        return session === undefined || session.chargedTo !== event.by ? undefined : fallen(facts, session, event);
      },
      'flash.recovered': ({ by }) => {
        const worker = facts.workers.get(by);
        if (worker === undefined || !facts.device(by).starting || worker.keys.size >= MOST_ENTRIES) return undefined;
        for (const session of chargedTo(facts, worker)) {
          const wrong = session.restated ? undefined : fallen(facts, session, NOTHING);
          if (wrong !== undefined) return wrong;
        }
        return undefined;
      },
    },
  }),
};

function fallen(facts: Facts, session: SessionFacts, to: Readonly<Sums>): string | undefined {
  const { starting, undoneSinceMs } = facts.device(session.chargedTo);
  const least = starting && undoneSinceMs < Number.POSITIVE_INFINITY ? session.settled : session.charged;
  if (!isLess(to, least)) return undefined;
  return `${session.chargedTo}'s entry for ${sessionText(session)} fell from ${sumsText(least)} to ${sumsText(to)}`;
}
