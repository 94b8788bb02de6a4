// What a trace has told so far of one counter.
import type { EventOf } from '../../trace/kinds.js';
import { newSession, type SessionFacts } from './session-facts.js';

export interface CounterFacts {
  readonly name: string;
  /** Magnitude in force, the one before it, and when it changed; 0 is none. */
  tenths: number;
  previousTenths: number;
  changedMs: number;
  /** It tells what its journal holds: firmware does not. */
  tellsKept: boolean;
  readonly sessions: Map<number, SessionFacts>;
  /** By link: the session that was told under it last. */
  readonly links: Map<number, SessionFacts>;
  /** Session 0 where none is open. */
  open: SessionFacts;
  lastSession: number;
  /** Trigger windows ever counted, in all sessions together: those that a power failure took are among them. */
  triggerWindows: number;
}

/** Session 0 of a counter. */
export function unclaimedOf(counter: CounterFacts): SessionFacts {
  const session = counter.sessions.get(0);
  if (session === undefined) throw new Error(`${counter.name} has no session 0`);
  return session;
}

export function newCounter(event: EventOf<'hand.tool'>): CounterFacts {
  const unclaimed = newSession(event.by, 0, '', 0, event.at);
  return {
    name: event.by,
    tenths: event.keyedTenths,
    previousTenths: event.keyedTenths,
    changedMs: event.at,
    tellsKept: false,
    sessions: new Map([[0, unclaimed]]),
    links: new Map(),
    open: unclaimed,
    lastSession: 0,
    triggerWindows: 0,
  };
}
