// How each event changes the facts. They are updated by an event after the invariants have seen it, so that an invariant always
// finds what held just before.
import type { EventOf, Kind } from '../../trace/kinds.js';
import { newCounter } from './counter-facts.js';
import { count, endCounterStart, find, keep, report, startCounter, tell, turnSession } from './counter-updates.js';
import type { Facts } from './facts.js';
import { newWorker } from './worker-facts.js';
import { acknowledge, charge, endWearableStart, pair, resume, startWearable, turnShift } from './worker-updates.js';

type Updates = { readonly [K in Kind]?: (event: EventOf<K>) => void };

/** What each kind of event changes; kinds that are missing change nothing. */
export function updatesOf(facts: Facts): Updates {
  return {
    'air.tally': (event) => tell(facts, event),
    'air.report': (event) => report(facts, event),
    'air.ack': (event) => {
      facts.sent.add(event);
      acknowledge(facts, event);
    },
    'air.pairing': (event) => facts.sent.add(event),
    'air.injected': (event) => facts.sent.add(event),
    'air.heard': (event) => {
      facts.heard = event;
    },
    'air.refused': (event) => {
      if (event.reason === 'throttled') facts.device(event.by).throttle(event.at);
    },
    'inner.ledger': (event) => charge(facts, event),
    'inner.paired': (event) => pair(facts, event),
    'inner.resumed': (event) => resume(facts, event),
    'inner.count': (event) => count(facts, event),
    'inner.kept': (event) => keep(facts, event),
    'inner.session': (event) => turnSession(facts, event),
    'inner.found': (event) => find(facts, event),
    'inner.shift': (event) => turnShift(facts, event),
    'inner.magnitude': (event) => setMagnitude(facts, event),
    'hand.day': (event) => {
      facts.fromMs = event.fromMs;
    },
    'hand.tool': (event) => {
      facts.counters.set(event.by, newCounter(event));
    },
    'hand.worker': (event) => {
      facts.workers.set(event.by, newWorker(event));
    },
    'hand.leave': (event) => facts.reach.leave(event.who),
    'hand.return': (event) => facts.reach.comeBack(event.who, event.at),
    'shown.display': (event) => facts.device(event.by).show(event),
    'flash.erase': (event) => facts.device(event.by).erase(event.at),
    'flash.recovered': (event) => endStart(facts, event),
    'fault.air': (event) => facts.reach.disturb(event.by, event.worker),
    'fault.attack': (event) => facts.reach.attack(event.by, event.worker),
    'fault.clock': (event) => facts.device(event.by).clock.change(event.at, event.ppm, event.driftPpm),
    'fault.cut': (event) => facts.device(event.by).fail(event),
    'fault.lifted': (event) => lift(facts, event),
  };
}

function lift(facts: Facts, { by, what, at }: EventOf<'fault.lifted'>): void {
  if (what === 'clock') facts.device(by).clock.change(at, 0, 0);
  else if (what !== 'power') facts.reach.lift(by, what, at);
  else {
    facts.device(by).start(at);
    if (facts.counters.has(by)) startCounter(facts.counter(by));
    else startWearable(facts, facts.worker(by));
  }
}

function endStart(facts: Facts, { by }: EventOf<'flash.recovered'>): void {
  const device = facts.device(by);
  if (!device.starting) return;
  device.starting = false;
  if (facts.counters.has(by)) endCounterStart(facts.counter(by));
  else endWearableStart(facts, facts.worker(by));
}

function setMagnitude(facts: Facts, event: EventOf<'inner.magnitude'>): void {
  const counter = facts.counter(event.by);
  counter.previousTenths = counter.tenths;
  counter.tenths = event.tenths;
  counter.changedMs = event.at;
}
