// Runs a device's statechart as an XState actor, on a virtual clock. The reference: slower, but XState alone decides.
import { type AnyActor, createActor, type StateValue } from 'xstate';
import { actorClock } from '../../../sim/kernel/actor-clock.js';
import { VirtualClock } from '../../../sim/kernel/clock.js';
import type { Chart, ChartEvent, Engine } from '../../port/engine.js';
import { regionsOf } from './regions.js';

/** Transitions that one event may set off. */
const MAX_ITERATIONS = 1000;

type Callback = () => void;
type Args = { event: ChartEvent };

export function actorEngine(chart: Chart): Engine {
  return new ActorEngine(chart);
}

class ActorEngine implements Engine {
  private readonly clock = new VirtualClock<Callback>();
  private readonly actor: AnyActor;
  private regions: ReadonlyMap<string, string> = new Map();
  private failure: unknown = null;

  constructor(private readonly chart: Chart) {
    const { guards, effects } = chart;
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
    this.actor = createActor(machine, { clock: actorClock(this.clock), maxIterations: MAX_ITERATIONS } as object);
    // A throw inside an effect does not reach the sender: the actor dies and tells its observers.
    this.actor.subscribe({
      next: (snapshot: { value: StateValue }) => this.note(snapshot.value),
      error: (error: unknown) => {
        this.failure = error;
      },
    });
  }

  start(): void {
    this.actor.start();
    this.check();
  }

  send(event: ChartEvent): void {
    this.actor.send(event);
    this.check();
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
    this.clock.runTo(toMs, (callback) => {
      callback();
      this.check();
    });
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

  private check(): void {
    if (this.failure !== null) throw this.failure;
  }
}

function mapValues<T, U>(record: Readonly<Record<string, T>>, change: (value: T) => U): Record<string, U> {
  return Object.fromEntries(Object.entries(record).map(([key, value]) => [key, change(value)]));
}
