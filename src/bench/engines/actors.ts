// Runs a device's statechart as an XState actor, on a virtual clock. The reference: slower, but XState alone decides.
import { type AnyActor, createActor, type StateValue } from 'xstate';
import { actorClock } from '../../../sim/kernel/actor-clock.js';
import { VirtualClock } from '../../../sim/kernel/clock.js';
import type { Chart, ChartEvent, Engine } from '../../port/engine.js';
import { regionsOf } from './regions.js';

/** Events that the effects of one event may send. */
const MAX_FOLLOWING = 1000;

type Callback = () => void;
type Args = { event: ChartEvent };

export function actorEngine(chart: Chart): Engine {
  return new ActorEngine(chart);
}

class ActorEngine implements Engine {
  private readonly clock = new VirtualClock<Callback>();
  private readonly actor: AnyActor;
  private regions: ReadonlyMap<string, string> = new Map();
  private readonly events: ReadonlySet<string>;
  private failure: unknown = null;
  private busy = false;
  private following = 0;

  constructor(private readonly chart: Chart) {
    const { guards, effects } = chart;
    this.events = new Set(chart.machine.events);
    const machine = chart.machine.provide({
      guards: mapValues(
        guards,
        (guard) =>
          ({ event }: Args) =>
            guard(event),
      ),
      actions: mapValues(
        effects,
        (effect) =>
          ({ event }: Args) =>
            effect(event),
      ),
    });
    this.actor = createActor(machine, { clock: actorClock(this.clock) });
    // A throw inside an effect does not reach the sender: the actor dies and tells its observers.
    this.actor.subscribe({
      next: (snapshot: { value: StateValue }) => this.note(snapshot.value),
      error: (error: unknown) => {
        this.failure = error;
      },
    });
  }

  start(): void {
    this.work(() => this.actor.start());
  }

  send(event: ChartEvent): void {
    // XState ignores an unknown event, and one sent to an actor that has died, in silence.
    if (!this.events.has(event.type)) throw new Error(`${this.chart.machine.id} knows no event ${event.type}`);
    this.check();
    if (!this.busy) this.work(() => this.actor.send(event));
    else if (++this.following > MAX_FOLLOWING) throw new Error(`${event.type} is sent without end`);
    else this.actor.send(event);
  }

  post(delayMs: number, event: ChartEvent): void {
    this.clock.arm(delayMs, () => this.send(event));
  }

  state(region: string): string {
    return this.regions.get(region) ?? '';
  }

  get nowMs(): number {
    return this.clock.nowMs;
  }

  nextMs(): number {
    return this.clock.nextMs();
  }

  moveTo(toMs: number): void {
    this.clock.moveTo(toMs);
  }

  runTo(toMs: number): void {
    this.clock.runTo(toMs, (callback) => this.work(callback));
  }

  inside(): readonly [string, readonly number[]] {
    return [[...this.regions.values()].join(), this.clock.pendingMs()];
  }

  fork(): Engine {
    throw new Error('actors cannot be copied: run the same day to the same event instead');
  }

  private note(value: StateValue): void {
    const before = this.regions;
    this.regions = regionsOf(value);
    for (const [region, state] of this.regions) {
      if (before.get(region) !== state) this.chart.onState(region, state);
    }
  }

  private work(act: () => void): void {
    this.busy = true;
    this.following = 0;
    try {
      act();
    } finally {
      this.busy = false;
    }
    this.check();
  }

  private check(): void {
    if (this.failure !== null) throw this.failure;
  }
}

function mapValues<T, U>(record: Readonly<Record<string, T>>, change: (value: T) => U): Record<string, U> {
  return Object.fromEntries(Object.entries(record).map(([key, value]) => [key, change(value)]));
}
