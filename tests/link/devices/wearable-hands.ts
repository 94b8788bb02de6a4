// What happens to a wearable between frames: a third counter touches it, its wearer taps, its power fails.
import type { RandomStream } from '../../../sim/kernel/random.js';
import { writePairing } from '../../../src/link/frames.js';
import { ToldCounter } from '../../rig/told-counter.js';
import { pick } from '../draw.js';
import { SETTLED_MS } from './target.js';
import type { Entry } from './wearable-ledger.js';
import type { WearableRules } from './wearable-rules.js';

/** Names of the links of the two that it knows from the beginning. */
export const FIRST_LINKS = [101, 102];
const THIRD = 3;
/** Keys that are kept, so that none is forgotten in one episode. */
const MAX_PAIRED = 40;

/** A counter that touches, perhaps with a link of a name that is taken, and then says what it says next. */
export function goOnPairing(rules: WearableRules, random: RandomStream): void {
  const { rig, phase, peer, entries } = rules;
  if (phase === 'closed' && entries.length < MAX_PAIRED) {
    const link = random.chance(1, 3) ? pick(random, FIRST_LINKS) : 200 + entries.length;
    const told = new ToldCounter(rig, THIRD, link, 1000 + rig.sent('hello').length);
    rules.peer = { told, answer: null };
    told.touch();
  } else if (peer === null) return;
  else if (phase === 'open.calling') {
    peer.answer = rules.honestAnswer();
    rig.hear(writePairing(peer.answer));
  } else if (phase === 'open.committed' && rules.answeredHonestly) peer.told.reveal();
  else if (phase === 'open.comparing.asked' && rules.answeredHonestly) rig.tap();
}

/** WEA-5: nothing that it has said is forgotten; how long the power was gone nobody knows. */
export function restart(rules: WearableRules): void {
  const { rig } = rules;
  rig.site.runFor(SETTLED_MS);
  rig.cutPower();
  rig.site.runFor(SETTLED_MS);
  rig.powerUp();
  rules.peer = null;
  for (const entry of rules.entries) {
    entry.heardMs = null;
    entry.highest = keptHighest(rules, entry);
  }
}

/** What an acknowledgement says, or what has made the entry grow, is kept; no more need be. */
function keptHighest({ rig }: WearableRules, { counter, link, highestGrown }: Entry): number {
  const acked = rig.site.frames.flatMap(({ to, message }) =>
    to === counter && message.frame === 'ack' && message.link === link ? [message.highest] : [],
  );
  return Math.max(highestGrown, ...acked);
}
