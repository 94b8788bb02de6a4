// What a trace has told so far, for the invariants to judge the next event by. The facts are updated by an event after the
// invariants have seen it, so that an invariant always finds what held just before.
// Units: dose in u, windows of 100 ms, times in ms since the start.
import type { EventOf, Kind } from '../../trace/kinds.js';
import { type CounterFacts, newCounter, unclaimedOf } from './counter-facts.js';
import { Reach } from './reach.js';
import { SentFrames } from './sent-frames.js';
import { newSession, raise, type SessionFacts } from './session-facts.js';
import { newWorker, type WorkerFacts } from './worker-facts.js';

/** A wearable accepts a pairing at most so long before its counter opens the session (PAI-1, with delays on the air). */
const PAIRING_MS = 60_000;

type Updates = { readonly [K in Kind]?: (event: EventOf<K>) => void };

export class Facts {
  /** Start of the day, ms after midnight. */
  fromMs = 0;
  readonly sent = new SentFrames();
  readonly counters = new Map<string, CounterFacts>();
  readonly workers = new Map<string, WorkerFacts>();
  readonly reach = new Reach();

  /** What each kind of event changes; kinds that are missing change nothing. */
  readonly updates: Updates = {
    'air.tally': (event) => this.tell(event),
    'air.report': (event) => this.sent.add(event),
    'air.ack': (event) => this.sent.add(event),
    'air.pairing': (event) => this.sent.add(event),
    'inner.ledger': (event) => this.charge(event),
    'inner.count': (event) => this.count(event),
    'inner.session': (event) => this.turnSession(event),
    'inner.shift': (event) => this.turnShift(event),
    'inner.magnitude': (event) => this.setMagnitude(event),
    'hand.day': (event) => {
      this.fromMs = event.fromMs;
    },
    'hand.tool': (event) => {
      this.counters.set(event.by, newCounter(event));
    },
    'hand.worker': (event) => {
      this.workers.set(event.by, newWorker(event));
    },
    'hand.leave': (event) => this.reach.leave(event.who),
    'hand.return': (event) => this.reach.comeBack(event.who, event.at),
    'fault.air': (event) => this.reach.disturb(event.by, event.worker),
    'fault.lifted': (event) => this.reach.lift(event.by, event.what, event.at),
  };

  /** Several invariants in a row ask for the same counter, worker and session, so the last of each is kept at hand. */
  private lastCounter: CounterFacts | undefined;
  private lastWorker: WorkerFacts | undefined;
  private lastSession: SessionFacts | undefined;

  /** Throws where no hand.tool has introduced it. */
  counter(name: string): CounterFacts {
    if (this.lastCounter?.name === name) return this.lastCounter;
    this.lastCounter = this.counters.get(name);
    if (this.lastCounter === undefined) throw new Error(`the trace has not introduced the tool ${name}`);
    return this.lastCounter;
  }

  /** Throws where no hand.worker has introduced the wearer. */
  worker(name: string): WorkerFacts {
    if (this.lastWorker?.name === name) return this.lastWorker;
    this.lastWorker = this.workers.get(name);
    if (this.lastWorker === undefined) throw new Error(`the trace has not introduced the worker ${name}`);
    return this.lastWorker;
  }

  session(counter: string, session: number): SessionFacts | undefined {
    const last = this.lastSession;
    if (last !== undefined && last.session === session && last.counter === counter) return last;
    this.lastSession = this.counter(counter).sessions.get(session);
    return this.lastSession;
  }

  private tell(event: EventOf<'air.tally'>): void {
    this.sent.add(event);
    // Firmware sends no inner. events: there the first tally is what shows that a session was opened.
    const session = this.session(event.by, event.session) ?? this.open(event.by, event.session, event.to, event.at);
    raise(session.told, event);
    if (event.sequence > session.toldSequence) session.toldSequence = event.sequence;
  }

  private charge(event: EventOf<'inner.ledger'>): void {
    const worker = this.worker(event.by);
    if (event.shift === worker.shift) worker.total = event.total;
    const session = this.session(event.counter, event.session);
    if (session === undefined) return;
    raise(session.charged, event);
    if (session.chargedTo !== '') return;
    session.chargedTo = event.by;
    session.chargedShift = event.shift;
  }

  private count(event: EventOf<'inner.count'>): void {
    const counter = this.counter(event.by);
    const session = counter.sessions.get(event.session);
    if (session === undefined) return;
    const grown = event.triggerWindows - session.counted.triggerWindows;
    if (grown > 0) {
      counter.triggerWindows += grown;
      session.changedMs = event.at;
    }
    raise(session.counted, event);
  }

  private turnSession(event: EventOf<'inner.session'>): void {
    if (event.what === 'opened') {
      const counter = this.counter(event.by);
      counter.open = this.open(event.by, event.session, event.with, event.at);
      counter.lastSession = Math.max(counter.lastSession, event.session);
      return;
    }
    const session = this.session(event.by, event.session);
    if (session === undefined) return;
    session.state = event.what as SessionFacts['state'];
    if (event.what !== 'sealed') return;
    session.changedMs = event.at;
    const counter = this.counter(event.by);
    if (counter.open === session) counter.open = unclaimedOf(counter);
  }

  private open(name: string, session: number, worker: string, atMs: number): SessionFacts {
    const { shift, closedMs } = this.worker(worker);
    // A pairing opens a shift where none is open.
    const earliestShift = atMs < closedMs + PAIRING_MS ? shift : shift + 1;
    const facts = newSession(name, session, worker, earliestShift, atMs);
    this.counter(name).sessions.set(session, facts);
    this.lastSession = facts;
    return facts;
  }

  private turnShift(event: EventOf<'inner.shift'>): void {
    const worker = this.worker(event.by);
    if (event.what === 'opened') {
      worker.shift = event.shift;
      worker.closedMs = Number.POSITIVE_INFINITY;
      worker.total = 0;
    } else if (event.what === 'closed') worker.closedMs = event.at;
  }

  private setMagnitude(event: EventOf<'inner.magnitude'>): void {
    const counter = this.counter(event.by);
    counter.previousTenths = counter.tenths;
    counter.tenths = event.tenths;
    counter.changedMs = event.at;
  }
}
