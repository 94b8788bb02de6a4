// Guards PAI-5, liveness: a sealed session is resent until it is acknowledged, so once its counter and wearable have been in
// reach without faults for two minutes it is delivered and let go.
import { clockText } from '../../trace/clock.js';
import type { Facts } from './facts.js';
import type { Invariant } from './invariant.js';
import { QUIET_MS } from './reach.js';
import type { SessionFacts } from './session-facts.js';
import { sessionText } from './text.js';

export const allDelivered: Invariant = {
  name: 'every sealed session is delivered, once in reach',
  guards: ['PAI-5'],
  watch: (facts) => ({
    on: {},
    waitingFor: (endMs) =>
      [...facts.counters.values()].flatMap(({ sessions }) =>
        [...sessions.values()].filter((session) => isOwed(facts, session, endMs)).map((one) => owedText(facts, one)),
      ),
  }),
};

function isOwed(facts: Facts, { counter, worker, state, changedMs }: SessionFacts, endMs: number): boolean {
  return state === 'sealed' && endMs - Math.max(changedMs, facts.reach.sinceMs(counter, worker)) >= QUIET_MS;
}

function owedText(facts: Facts, session: SessionFacts): string {
  return `${session.worker} to acknowledge ${sessionText(session)}, sealed at ${clockText(facts.fromMs, session.changedMs)}`;
}
