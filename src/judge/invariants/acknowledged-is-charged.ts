// Guards PAI-5 and TAL-5: what a wearable acknowledges is on its ledger: every tally up to the number that it names, of those that
// it has taken in. A counter lets go of a session on the word of an acknowledgement, so this is what no dose is lost by.
import type { EventOf } from '../../trace/kinds.js';
import type { Facts } from './facts.js';
import type { Invariant } from './invariant.js';
import { isLess, sessionText, sumsText } from './text.js';

export const acknowledgedIsCharged: Invariant = {
  name: 'what is acknowledged is on the ledger',
  guards: ['PAI-5', 'TAL-5'],
  watch: (facts) => {
    /** By counter, session and number. */
    const tallies = new Map<string, EventOf<'air.tally'>>();
    return {
      on: {
        'air.tally': (event) => {
          tallies.set(nameOf(event.by, event.session, event.sequence), event);
          return undefined;
        },
        'air.ack': (event) => wrongAck(facts, tallies, event),
      },
    };
  },
};

function wrongAck(
  facts: Facts,
  tallies: ReadonlyMap<string, EventOf<'air.tally'>>,
  event: EventOf<'air.ack'>,
): string | undefined {
  const session = facts.counter(event.to).links.get(event.link);
  if (session === undefined) return `${event.by} acknowledges link ${event.link} of ${event.to}, which told nothing`;
  const tally = tallies.get(nameOf(event.to, session.session, event.highest));
  const name = `${event.by} acknowledges number ${event.highest} of ${sessionText(session)}`;
  if (tally === undefined) return `${name}, which was never a tally`;
  const { charged, chargedTo } = session;
  const isCharged = chargedTo === event.by || tally.triggerWindows === 0;
  if (isCharged && !isLess(charged, tally)) return undefined;
  return `${name}, ${sumsText(tally)}, and has ${sumsText(charged)}`;
}

function nameOf(counter: string, session: number, sequence: number): string {
  return `${counter} ${session} ${sequence}`;
}
