// What a trace has told so far, for the invariants to judge the next event by. updates.ts says how each event changes it.
// Units: dose in u, windows of 100 ms, times in ms since the start.
import type { EventOf } from '../../trace/kinds.js';
import type { CounterFacts } from './counter-facts.js';
import { DeviceFacts } from './device-facts.js';
import { getOrMake } from './get-or-make.js';
import { Reach } from './reach.js';
import { SentFrames } from './sent-frames.js';
import { newSession, type SessionFacts } from './session-facts.js';
import { keyName, type WorkerFacts } from './worker-facts.js';

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
    const shift = this.worker(worker).keys.get(keyName(counter, session)) ?? 0;
    this.lastSession = newSession(counter, session, worker, shift, atMs);
    this.counter(counter).sessions.set(session, this.lastSession);
    return this.lastSession;
  }
}
