// What a trace has told so far, for the invariants to judge the next event by. The facts are updated by an event after the
// invariants have seen it, so that an invariant always finds what held just before.
// Units: dose in u, windows of 100 ms, times in ms since the start.
import type { EventOf, Kind } from '../../trace/kinds.js';
import { type CounterFacts, newCounter } from './counter-facts.js';
import { count, endCounterStart, find, keep, openSession, startCounter, tell, turnSession } from './counter-updates.js';
import { DeviceFacts } from './device-facts.js';
import { getOrMake } from './get-or-make.js';
import { Reach } from './reach.js';
import { SentFrames } from './sent-frames.js';
import type { SessionFacts } from './session-facts.js';
import { newWorker, type WorkerFacts } from './worker-facts.js';
import { acknowledge, charge, endWearableStart, pair, resume, startWearable, turnShift } from './worker-updates.js';

type Updates = { readonly [K in Kind]?: (event: EventOf<K>) => void };

const newDevice = (name: string) => new DeviceFacts(name);

export class Facts {
  /** Start of the day, ms after midnight. */
  fromMs = 0;
  readonly sent = new SentFrames();
  readonly counters = new Map<string, CounterFacts>();
  readonly workers = new Map<string, WorkerFacts>();
  /** The frame heard last, by whomever. */
  heard: EventOf<'air.heard'> | undefined;
  readonly reach = new Reach((name) => this.device(name));

  /** What each kind of event changes; kinds that are missing change nothing. */
  readonly updates: Updates = {
    'air.tally': (event) => tell(this, event),
    'air.report': (event) => this.sent.add(event),
    'air.ack': (event) => {
      this.sent.add(event);
      acknowledge(this, event);
    },
    'air.pairing': (event) => this.sent.add(event),
    'air.injected': (event) => this.sent.add(event),
    'air.heard': (event) => {
      this.heard = event;
    },
    'air.refused': (event) => {
      if (event.reason === 'throttled') this.device(event.by).throttle(event.at);
    },
    'inner.ledger': (event) => charge(this, event),
    'inner.paired': (event) => pair(this, event),
    'inner.resumed': (event) => resume(this, event),
    'inner.count': (event) => count(this, event),
    'inner.kept': (event) => keep(this, event),
    'inner.session': (event) => turnSession(this, event),
    'inner.found': (event) => find(this, event),
    'inner.shift': (event) => turnShift(this, event),
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
    'shown.display': (event) => this.device(event.by).show(event),
    'flash.erase': (event) => this.device(event.by).erase(event.at),
    'flash.recovered': (event) => this.endStart(event),
    'fault.air': (event) => this.reach.disturb(event.by, event.worker),
    'fault.attack': (event) => this.reach.attack(event.by, event.worker),
    'fault.clock': (event) => this.device(event.by).clock.change(event.at, event.ppm, event.driftPpm),
    'fault.cut': (event) => this.device(event.by).fail(event),
    'fault.lifted': (event) => this.lift(event),
  };

  private readonly devices = new Map<string, DeviceFacts>();
  /** Several invariants in a row ask for the same device, counter, worker and session, so the last of each is kept at hand. */
  private lastDevice: DeviceFacts | undefined;
  private lastCounter: CounterFacts | undefined;
  private lastWorker: WorkerFacts | undefined;
  private lastSession: SessionFacts | undefined;

  /** The counter or wearable of this name. */
  device(name: string): DeviceFacts {
    if (this.lastDevice?.name === name) return this.lastDevice;
    this.lastDevice = getOrMake(this.devices, name, newDevice);
    return this.lastDevice;
  }

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

  /** A session that is told of for the first time. */
  open(counter: string, session: number, worker: string, atMs: number): SessionFacts {
    this.lastSession = openSession(this, counter, session, worker, atMs);
    return this.lastSession;
  }

  private lift({ by, what, at }: EventOf<'fault.lifted'>): void {
    if (what === 'clock') this.device(by).clock.change(at, 0, 0);
    else if (what !== 'power') this.reach.lift(by, what, at);
    else {
      this.device(by).start(at);
      if (this.counters.has(by)) startCounter(this.counter(by));
      else startWearable(this, this.worker(by));
    }
  }

  private endStart({ by }: EventOf<'flash.recovered'>): void {
    const device = this.device(by);
    if (!device.starting) return;
    device.starting = false;
    if (this.counters.has(by)) endCounterStart(this.counter(by));
    else endWearableStart(this, this.worker(by));
  }

  private setMagnitude(event: EventOf<'inner.magnitude'>): void {
    const counter = this.counter(event.by);
    counter.previousTenths = counter.tenths;
    counter.tenths = event.tenths;
    counter.changedMs = event.at;
  }
}
