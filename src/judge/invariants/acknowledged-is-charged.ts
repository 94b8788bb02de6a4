// Guards PAI-5 and TAL-5: what a wearable acknowledges is on its ledger: every tally up to the number that it names, of those that
// it has taken in. A counter lets go of a session on the word of an acknowledgement, so this is what no dose is lost by.
import type { EventOf } from '../../trace/kinds.js';
import type { Facts } from './facts.js';
import type { Invariant } from './invariant.js';
import { isLess, sessionText, sumsText } from './text.js';

export const acknowledgedIsCharged: Invariant = {
  name: 'what is acknowledged is on the ledger',
  guards: ['PAI-5', 'TAL-5'],
  watch: (facts) => ({ on: { 'air.ack': (event) => wrongAck(facts, event) } }),
};

function wrongAck(facts: Facts, event: EventOf<'air.ack'>): string | undefined {
  const session = facts.counter(event.to).links.get(event.link);
  if (session === undefined) return `${event.by} acknowledges link ${event.link} of ${event.to}, which told nothing`;
  const tally = session.frames.get(event.highest);
  const name = `${event.by} acknowledges number ${event.highest} of ${sessionText(session)}`;
  if (tally?.kind !== 'air.tally') return `${name}, which was never a tally`;
  const { charged, chargedTo } = session;
  const isCharged = chargedTo === event.by || tally.triggerWindows === 0;
  if (isCharged && !isLess(charged, tally)) return undefined;
  return `${name}, ${sumsText(tally)}, and has ${sumsText(charged)}`;
}
