// How the facts of a wearable go on with what it tells: keys, shifts, its ledger, and what it finds of them when it starts again.
import type { EventOf } from '../../trace/kinds.js';
import type { Facts } from './facts.js';
import { become, noSums, type SessionFacts } from './session-facts.js';
import { keyName, type WorkerFacts } from './worker-facts.js';

export function pair(facts: Facts, event: EventOf<'inner.paired'>): void {
  const { keys } = facts.worker(event.by);
  const key = keyName(event.counter, event.session);
  // A key that nobody confirmed may be kept beside a newer one of the same number.
  keys.set(key, Math.max(keys.get(key) ?? 0, event.shift));
}

export function charge(facts: Facts, event: EventOf<'inner.ledger'>): void {
  const worker = facts.worker(event.by);
  const device = facts.device(event.by);
  if (event.shift === worker.shift) worker.total = event.total;
  const session = facts.session(event.counter, event.session);
  if (session === undefined) return;
  become(session.charged, event);
  session.restated = true;
  if (device.starting || device.unkeptSinceMs(event.at) === Number.POSITIVE_INFINITY) become(session.settled, event);
  if (session.chargedTo !== '') return;
  session.chargedTo = event.by;
}

/** It acknowledges only what its journal holds. */
export function acknowledge(facts: Facts, event: EventOf<'air.ack'>): void {
  const session = facts.counter(event.to).links.get(event.link);
  if (session?.chargedTo === event.by) become(session.settled, session.charged);
}

export function turnShift(facts: Facts, event: EventOf<'inner.shift'>): void {
  const worker = facts.worker(event.by);
  if (event.what === 'opened') {
    worker.shift = event.shift;
    worker.closedMs = Number.POSITIVE_INFINITY;
    worker.total = 0;
  } else if (event.what === 'closed') worker.closedMs = event.at;
}

export function startWearable(facts: Facts, worker: WorkerFacts): void {
  worker.shift = 0;
  worker.total = 0;
  for (const session of chargedTo(facts, worker)) session.restated = false;
}

export function resume(facts: Facts, event: EventOf<'inner.resumed'>): void {
  const worker = facts.worker(event.by);
  worker.shift = event.shift;
  worker.total = event.dose;
  worker.closedMs = event.open ? Number.POSITIVE_INFINITY : event.at;
}

/** All that it found is told: what it has not named it has no more. */
export function endWearableStart(facts: Facts, worker: WorkerFacts): void {
  if (worker.shift === 0) worker.closedMs = Number.NEGATIVE_INFINITY;
  for (const session of chargedTo(facts, worker)) {
    if (session.restated) continue;
    session.restated = true;
    become(session.charged, noSums());
    become(session.settled, noSums());
  }
}

/** The sessions of which the wearable has told that they are on its ledger. */
export function* chargedTo(facts: Facts, worker: WorkerFacts): Generator<SessionFacts> {
  for (const { sessions } of facts.counters.values()) {
    for (const session of sessions.values()) if (session.chargedTo === worker.name) yield session;
  }
}
