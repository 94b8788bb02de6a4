// Guards TAL-3 and WEA-1, liveness: once a counter and its wearable have been in reach without faults for two minutes, all that
// the counter has counted for that wearable is on its ledger, but for what was read out of the counter (PAI-7).
import { clockText } from '../../trace/clock.js';
import type { Facts } from './facts.js';
import type { Invariant } from './invariant.js';
import { QUIET_MS } from './reach.js';
import type { SessionFacts } from './session-facts.js';
import { isLess, sessionText, sumsText } from './text.js';

export const allCharged: Invariant = {
  name: 'every ledger has all that its counters counted, once in reach',
  guards: ['TAL-3', 'WEA-1'],
  watch: (facts) => ({
    on: {},
    waitingFor: (endMs) =>
      [...facts.counters.values()].flatMap(({ sessions }) =>
        [...sessions.values()].filter((session) => isOwed(facts, session, endMs)).map((one) => owedText(facts, one)),
      ),
  }),
};

function isOwed(facts: Facts, session: SessionFacts, endMs: number): boolean {
  const { counter, worker, state, charged, counted, changedMs } = session;
  // What was read out of the counter (PAI-7) is told no more; what was undone has counted nothing.
  if (worker === '' || state === 'read out' || state === 'undone' || !isLess(charged, counted)) return false;
  return endMs - Math.max(changedMs, facts.reach.sinceMs(counter, worker)) >= QUIET_MS;
}

function owedText(facts: Facts, session: SessionFacts): string {
  const { worker, charged, counted, changedMs } = session;
  const counts = `${sumsText(counted)}, counted by ${clockText(facts.fromMs, changedMs)}`;
  return `${worker}'s ledger to have ${sessionText(session)}: ${counts}; it has ${sumsText(charged)}`;
}
