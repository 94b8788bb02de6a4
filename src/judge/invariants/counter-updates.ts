// How the facts of a counter go on with what it tells: sessions, counts, what its journal holds, and what it finds there when it
// starts again.
import type { EventOf } from '../../trace/kinds.js';
import { type CounterFacts, unclaimedOf } from './counter-facts.js';
import type { Facts } from './facts.js';
import { become, raise, type SessionFacts } from './session-facts.js';
import { isLess } from './text.js';

export function tell(facts: Facts, event: EventOf<'air.tally'>): void {
  facts.sent.add(event);
  // Firmware sends no inner. events: there the first tally is what shows that a session was opened.
  const session = facts.session(event.by, event.session) ?? facts.open(event.by, event.session, event.to, event.at);
  facts.counter(event.by).links.set(event.link, session);
  raise(session.told, event);
  session.frames.set(event.sequence, event);
  if (event.sequence > session.toldSequence) session.toldSequence = event.sequence;
}

export function report(facts: Facts, event: EventOf<'air.report'>): void {
  facts.sent.add(event);
  facts.session(event.by, event.session)?.frames.set(event.sequence, event);
}

export function count(facts: Facts, event: EventOf<'inner.count'>): void {
  const counter = facts.counter(event.by);
  const session = counter.sessions.get(event.session);
  if (session === undefined) return;
  const grown = event.triggerWindows - session.counted.triggerWindows;
  if (grown > 0) {
    counter.triggerWindows += grown;
    session.changedMs = event.at;
  }
  if (session.recounted) {
    raise(session.counted, event);
    return;
  }
  session.recounted = true;
  become(session.counted, event);
  become(session.kept, event);
}

export function keep(facts: Facts, event: EventOf<'inner.kept'>): void {
  const session = facts.session(event.by, event.session);
  if (session === undefined) return;
  raise(session.kept, event);
  session.keptMs = event.at;
}

export function turnSession(facts: Facts, event: EventOf<'inner.session'>): void {
  const counter = facts.counter(event.by);
  counter.tellsKept = true;
  if (event.what === 'opened') {
    counter.open = facts.open(event.by, event.session, event.with, event.at);
    counter.lastSession = Math.max(counter.lastSession, event.session);
    return;
  }
  const session = facts.session(event.by, event.session);
  if (session === undefined) return;
  session.state = event.what as SessionFacts['state'];
  if (event.what !== 'sealed') {
    session.endedMs = event.at;
    return;
  }
  session.sealedMs = event.at;
  session.changedMs = event.at;
  if (counter.open === session) counter.open = unclaimedOf(counter);
}

export function startCounter(counter: CounterFacts): void {
  for (const session of counter.sessions.values()) {
    session.found = session.session === 0;
    session.recounted = false;
  }
}

export function find(facts: Facts, event: EventOf<'inner.found'>): void {
  const known = facts.session(event.by, event.session);
  const session =
    known === undefined || known.state === 'undone' ? facts.open(event.by, event.session, event.with, event.at) : known;
  session.found = true;
  session.keptMs = event.at;
  session.recounted = event.what === 'sealed';
  session.state = event.what as SessionFacts['state'];
  if (event.what === 'sealed') session.sealedMs = Math.min(session.sealedMs, event.at);
}

/** All that it found is told: what it has not named is let go of, or was never kept. */
export function endCounterStart(counter: CounterFacts): void {
  counter.open = unclaimedOf(counter);
  counter.lastSession = 0;
  for (const session of counter.sessions.values()) {
    if (!session.found && session.state === 'opened') session.state = 'undone';
    if (!session.found && session.state === 'sealed') {
      session.state = isLess(session.charged, session.counted) ? 'read out' : 'delivered';
    }
    if (session.found && session.state === 'opened' && session.session !== 0) counter.open = session;
    if (session.state !== 'undone') counter.lastSession = Math.max(counter.lastSession, session.session);
    if (session.session === 0 && !session.recounted) {
      const nothing = { dose: 0, triggerWindows: 0, unratedWindows: 0 };
      become(session.counted, nothing);
      become(session.kept, nothing);
    }
    session.recounted = true;
  }
}
