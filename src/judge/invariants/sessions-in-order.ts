// Guards PAI-3, PAI-5, PAI-7 and KEP-1: session numbers only grow, one session is open at a time, a sealed one is kept until it is
// delivered or read out, at most 32 are kept, and one that is let go as delivered has all that it counted on its ledger.
// A counter that starts again has every session that it had: only what it told while its journal could not be written (KEP-5)
// may be undone, and only what it was about when power failed within a write may be done without its having told so.
import type { EventOf } from '../../trace/kinds.js';
import type { CounterFacts } from './counter-facts.js';
import type { Facts } from './facts.js';
import type { Invariant } from './invariant.js';
import type { SessionFacts } from './session-facts.js';
import { isLess, sessionText, sumsText } from './text.js';

const MAX_SEALED = 32;

export const sessionsInOrder: Invariant = {
  name: 'sessions follow each other, and none is let go before it is delivered',
  guards: ['PAI-3', 'PAI-5', 'PAI-7', 'KEP-1'],
  watch: (facts) => {
    /** When a counter lay in its reader last. */
    const readoutMs = new Map<string, number>();
    return {
      on: {
        'input.readout': (event) => {
          readoutMs.set(event.by, event.at);
          return undefined;
        },
        'inner.session': (event) => {
          if (event.what === 'opened') return wrongOpening(facts, event);
          return wrongTurn(facts, event, readoutMs.get(event.by) === event.at);
        },
        'inner.found': (event) => wrongFound(facts, event),
        'flash.recovered': (event) => {
          const counter = facts.counters.get(event.by);
          const device = facts.device(event.by);
          if (counter === undefined || !device.starting) return undefined;
          return wrongStart(facts, counter, readoutMs.get(event.by) === device.failedMs);
        },
      },
    };
  },
};

function wrongOpening(facts: Facts, event: EventOf<'inner.session'>): string | undefined {
  const { open, lastSession } = facts.counter(event.by);
  if (open.session !== 0) return `${event.by} opens session ${event.session} while ${sessionText(open)} is open`;
  if (event.session > lastSession) return undefined;
  return `${event.by} opens session ${event.session} after session ${lastSession}`;
}

function wrongTurn(facts: Facts, event: EventOf<'inner.session'>, isRead: boolean): string | undefined {
  const session = facts.session(event.by, event.session);
  const before = event.what === 'sealed' ? 'opened' : 'sealed';
  if (session?.state !== before) {
    return `session ${event.session} of ${event.by} is ${event.what}, but was ${session?.state ?? 'never opened'}`;
  }
  if (event.what === 'sealed') return tooMany(facts.counter(event.by), 1);
  if (event.what === 'read out') return isRead ? undefined : `${sessionText(session)} is read out, by nobody`;
  if (isLess(session.charged, session.counted)) return lostText(session);
  const ack = facts.heard?.n === event.cause ? facts.sent.heard(facts.heard) : undefined;
  const isIt = ack?.kind === 'air.ack' && ack.by === session.worker && ack.highest >= session.toldSequence;
  return isIt ? undefined : `${sessionText(session)} is let go, and its last tally is not acknowledged`;
}

function wrongFound(facts: Facts, { by, session: number, what }: EventOf<'inner.found'>): string | undefined {
  const { untold, undoneSinceMs } = facts.device(by);
  const session = facts.session(by, number);
  if (session === undefined || session.state === 'undone') {
    if (untold && what === 'opened' && number > facts.counter(by).lastSession) return undefined;
    return `${by} finds session ${number} ${what}, which it has never opened`;
  }
  const isBack =
    (what === 'opened' && session.sealedMs >= undoneSinceMs) || (what === 'sealed' && session.endedMs >= undoneSinceMs);
  const isOn = untold && session.state === 'opened' && what === 'sealed';
  if (what === session.state || isOn || (isBack && session.state !== 'opened')) return undefined;
  return `${by} finds ${sessionText(session)} ${what}, which was ${session.state}`;
}

function wrongStart(facts: Facts, counter: CounterFacts, wasRead: boolean): string | undefined {
  const { untold, undoneSinceMs } = facts.device(counter.name);
  for (const session of counter.sessions.values()) {
    if (session.found || (session.state !== 'opened' && session.state !== 'sealed')) continue;
    if (session.state === 'opened' && session.openedMs >= undoneSinceMs && session.toldSequence === 0) continue;
    if (session.state === 'sealed' && untold) {
      if (wasRead || !isLess(session.charged, session.counted)) continue;
      return lostText(session);
    }
    return `${counter.name} has lost ${sessionText(session)}, which was ${session.state}`;
  }
  return tooMany(counter, 0);
}

function tooMany({ name, sessions }: CounterFacts, more: number): string | undefined {
  let kept = more;
  for (const { state, found } of sessions.values()) if (state === 'sealed' && found) kept += 1;
  return kept > MAX_SEALED ? `${name} keeps ${kept} sealed sessions` : undefined;
}

function lostText(session: SessionFacts): string {
  const { charged, counted } = session;
  return `${sessionText(session)} is let go with ${sumsText(counted)}, of which the ledger has ${sumsText(charged)}`;
}
