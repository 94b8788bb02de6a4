// Guards TAL-7: an entry of a ledger grows no faster than the largest magnitude makes dose: 50 m/s² since the last tally that was
// taken in, 4 % for the clocks and 10 s for what was on its way; and no tally is refused that says no more. After a start of the
// wearable nobody knows how long that is.
import type { EventOf } from '../../trace/kinds.js';
import type { Facts } from './facts.js';
import { getOrMake } from './get-or-make.js';
import { HeardTallies, type HeardTally } from './heard-tallies.js';
import type { Invariant } from './invariant.js';
import type { SessionFacts } from './session-facts.js';
import { sessionText } from './text.js';
import { keyName } from './worker-facts.js';

/** 500² tenths squared a ms. */
const MOST_U_PER_MS = 250_000;
const SPARE_MS = 10_000;

/** When a new tally of a session was taken in last, or its key was kept, undefined since a start; and the number of that tally. */
interface News {
  sinceMs: number | undefined;
  highest: number;
}

export const noSuddenDose: Invariant = {
  name: 'no dose is charged faster than any tool makes it, and all that one may have made',
  guards: ['TAL-7'],
  watch: (facts) => {
    /** When a key was kept, by what it is of. */
    const pairedMs = new Map<string, number>();
    const known = new Map<SessionFacts, News>();
    const heard = new HeardTallies(facts);
    const of = (counter: string, number: number): News | undefined => {
      const session = facts.session(counter, number);
      if (session === undefined) return undefined;
      const sinceMs = () => pairedMs.get(keyName(`${session.worker} ${counter}`, number));
      return getOrMake(known, session, () => ({ sinceMs: sinceMs(), highest: 0 }));
    };
    const take = (taken: HeardTally | undefined): undefined => {
      const news = taken === undefined ? undefined : of(taken.tally.by, taken.tally.session);
      // The last one again is acknowledged again, and nothing else.
      if (taken === undefined || news === undefined || taken.tally.sequence <= news.highest) return;
      news.highest = taken.tally.sequence;
      news.sinceMs = taken.heard.at;
    };
    return {
      on: {
        'inner.paired': (event) => {
          const key = keyName(`${event.by} ${event.counter}`, event.session);
          if (facts.device(event.by).starting) pairedMs.delete(key);
          else pairedMs.set(key, event.at);
          return undefined;
        },
        'air.heard': (event) => take(heard.hear(event)),
        'air.refused': (event) => {
          const refused = heard.refuse(event);
          if (event.reason !== 'implausible' || refused === undefined) return undefined;
          return tooSlow(facts, of(refused.tally.by, refused.tally.session)?.sinceMs, refused);
        },
        'inner.ledger': (event) => {
          const news = of(event.counter, event.session);
          if (!facts.device(event.by).starting) return tooFast(facts, news?.sinceMs, event);
          take(heard.take());
          if (news !== undefined) news.sinceMs = undefined;
          return undefined;
        },
      },
    };
  },
};

function tooFast(facts: Facts, fromMs: number | undefined, event: EventOf<'inner.ledger'>): string | undefined {
  const session = facts.session(event.counter, event.session);
  if (session === undefined || fromMs === undefined) return undefined;
  const passedMs = facts.device(event.by).clock.most(fromMs, event.at);
  const grown = event.dose - session.charged.dose;
  if (grown <= mostWithin(passedMs)) return undefined;
  return `${event.by} is charged ${grown} u for ${sessionText(session)} within ${passedMs / 1000} s`;
}

/** What any tool may have made is taken in. */
function tooSlow(facts: Facts, fromMs: number | undefined, { tally, heard }: HeardTally): string | undefined {
  const session = facts.session(tally.by, tally.session);
  if (session === undefined) return undefined;
  const grown = tally.dose - session.charged.dose;
  if (fromMs === undefined) return `${heard.by} refuses ${grown} u of ${sessionText(session)} after a start`;
  const passedMs = facts.device(heard.by).clock.least(fromMs, heard.at);
  if (grown > mostWithin(passedMs)) return undefined;
  return `${heard.by} refuses ${grown} u of ${sessionText(session)} within ${passedMs / 1000} s`;
}

function mostWithin(passedMs: number): number {
  return MOST_U_PER_MS * (passedMs + Math.ceil(passedMs / 25) + SPARE_MS);
}
