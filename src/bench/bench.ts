// The bench: a day in, an outcome and a trace out. It runs in virtual time, one thing after the other: at one moment what is
// due in the world comes first, so that what ends then has ended before something begins; then the day's own events, then
// the devices in the order in which they are named.
import { VirtualClock } from '../../sim/kernel/clock.js';
import { ModelCounter } from '../counter/counter.js';
import { CHIP, NO_KEYS } from '../link/cipher.js';
import type { EngineMaker } from '../port/engine.js';
import type { CounterMaker, Observation } from '../port/port.js';
import type { Refusal } from '../port/refusals.js';
import type { Day } from '../scenario/day.js';
import type { TraceEvent } from '../trace/kinds.js';
import { Recorder, type Watcher } from '../trace/recorder.js';
import type { Shift } from '../wearable/state.js';
import { arrive } from './air.js';
import { endAttack, goOnAttacking, injected } from './attacks/attack.js';
import { CHECKPOINT_MS, checkpoint } from './checkpoint.js';
import { driftOn, endClockFault } from './clocks.js';
import { copyDevices, newFlashOf, startDevice } from './devices.js';
import { tableEngine } from './engines/table.js';
import { giveWindow } from './give-window.js';
import { happen } from './happen.js';
import { opening } from './opening.js';
import { powerBack } from './power/back.js';
import { cellCrossed } from './power/cells.js';
import { copyRandomness, type Randomness, randomnessOf } from './randomness.js';
import { endSampledWindow } from './samples.js';
import { advance, deviceState, inputToCounter, inputToWearable, type Stage, type Workshop } from './stage.js';
import { goOn } from './tasks.js';
import { endWindow, setDown, stopTool } from './tools.js';
import { Tracer } from './tracer.js';
import { liftAir, liftSensor } from './verbs/faults.js';
import { deviceId } from './verbs/names.js';
import { returnFrom } from './verbs/people.js';
import { newWorld, type Occurrence, type World } from './world.js';

/** Steps in one day before it is called endless; an 8 h day with four tools takes about 30 000. */
const MAX_STEPS = 20_000_000;

export interface BenchOptions {
  /** What runs the statecharts: the transition table unless something else is asked for. */
  readonly engine?: EngineMaker;
  /** The counters of the day: the model's unless something else is asked for. */
  readonly counter?: CounterMaker;
  /** Whether frames are sealed with keys (unless said otherwise), or with a checksum only, which takes less time. */
  readonly keys?: boolean;
  /** Whether the trace is kept (unless said otherwise), only watched as it happens, or not made at all. */
  readonly trace?: 'kept' | 'watched' | 'none';
  /** Told of every event of the trace as it happens. */
  readonly watchers?: readonly Watcher[];
}

/** What the devices know in the end. */
export interface Outcome {
  readonly counters: Readonly<Record<string, Observation>>;
  /** The shifts that each worker's wearable keeps, oldest first. */
  readonly shifts: Readonly<Record<string, readonly Shift[]>>;
  /** Frames that each device has dropped, by reason, a tool's name standing for its counter. */
  readonly refused: Readonly<Record<string, { readonly [reason in Refusal]?: number }>>;
}

/** A moment of a bench, from which any number of benches can go on, each by itself. */
export interface Snapshot {
  open(): Bench;
}

export class Bench {
  private taken = 0;

  private constructor(private readonly stage: Stage) {}

  /** A bench at the start of a day, its devices switched on. */
  static open(day: Day, options: BenchOptions = {}): Bench {
    const { trace = 'kept', watchers = [] } = options;
    const recorder = trace === 'none' ? null : new Recorder(watchers, trace === 'kept');
    const stage = newStage(day, newWorld(day), workshopOf(options), randomnessOf(day), recorder);
    opening(stage);
    for (let id = 1; id <= stage.world.devices.length; id++) {
      stage.flashes.push(newFlashOf(stage, id));
      startDevice(stage, id);
    }
    for (const [tool, { window }] of stage.world.tools.entries()) giveWindow(stage, tool, window.levelMm, 0);
    if (stage.tracer !== null) stage.clock.arm(CHECKPOINT_MS, { of: 'checkpoint' });
    return new Bench(stage);
  }

  /** Present moment, ms since the start of the day. */
  get nowMs(): number {
    return this.stage.clock.nowMs;
  }

  /** Things that happened so far: events of the day, frames that arrived, deadlines of devices. */
  get steps(): number {
    return this.taken;
  }

  /** The trace so far; empty where none is kept. */
  get events(): readonly TraceEvent[] {
    return this.stage.tracer?.recorder.events ?? [];
  }

  /** Time of the next thing that happens, Infinity where the day is over. */
  nextMs(): number {
    const { clock, world, day } = this.stage;
    let nextMs = Math.min(clock.nextMs(), this.nextEventMs());
    for (const wakeMs of world.wakesMs) if (wakeMs < nextMs) nextMs = wakeMs;
    return nextMs <= day.untilMs ? nextMs : Infinity;
  }

  /** Does the next thing; false where the day is over. */
  step(): boolean {
    const dueMs = this.nextMs();
    if (dueMs === Infinity) return false;
    if (++this.taken > MAX_STEPS) throw new Error(`the day takes more than ${MAX_STEPS} steps`);
    const { clock, day, world } = this.stage;
    if (clock.nextMs() === dueMs) this.perform(clock.take());
    else if (this.nextEventMs() === dueMs) {
      clock.moveTo(dueMs);
      happen(this.stage, day.events[world.nextEvent++]!);
    } else this.wake(dueMs);
    return true;
  }

  /** Does everything due up to and including toMs, but not beyond the end of the day. */
  runTo(toMs: number): void {
    while (this.nextMs() <= toMs && this.step());
  }

  /** Runs to atMs, no later than the end of the day; then a frame that somebody has recorded reaches a device (TAL-4). */
  deliver(atMs: number, device: string, frame: Uint8Array): void {
    this.runTo(atMs);
    this.stage.clock.moveTo(atMs);
    this.stage.world.cause = 0;
    arrive(this.stage, injected(this.stage, frame, deviceId(this.stage, device), 'replay'));
  }

  /** Runs to the end of the day. */
  run(): Outcome {
    while (this.step());
    this.stage.clock.moveTo(this.stage.day.untilMs);
    for (let id = 1; id <= this.stage.world.wakesMs.length; id++) advance(this.stage, id);
    return this.outcome();
  }

  outcome(): Outcome {
    const { day, counters, wearables } = this.stage;
    return {
      counters: Object.fromEntries(day.tools.map(({ name }, tool) => [name, counters[tool]!.observe()])),
      shifts: Object.fromEntries(day.workers.map(({ name }, worker) => [name, wearables[worker]!.observe()])),
      refused: Object.fromEntries(
        [...day.tools, ...day.workers].map(({ name }, index) => [
          name,
          { ...deviceState(this.stage, index + 1).refused },
        ]),
      ),
    };
  }

  /**
   * A copy that goes on from here by itself; watchers are not taken along. The transition table can be copied, actors
   * cannot: an error says so.
   */
  fork(): Bench {
    const { day, world, workshop, random, tracer } = this.stage;
    const recorder = tracer === null ? null : new Recorder([], tracer.recorder.keep, tracer.recorder);
    const stage = newStage(day, structuredClone(world), workshop, copyRandomness(random), recorder);
    copyDevices(stage, this.stage);
    const copy = new Bench(stage);
    copy.taken = this.taken;
    return copy;
  }

  /** Steps at which power could have failed so far in the flash of a device: one a byte programmed, 64 an erase. */
  flashSteps(device: string): number {
    return this.stage.flashes[deviceId(this.stage, device) - 1]!.steps;
  }

  /** How often each page of a device's flash was erased so far. */
  flashErases(device: string): readonly number[] {
    return this.stage.flashes[deviceId(this.stage, device) - 1]!.erases;
  }

  hasPower(device: string): boolean {
    return this.stage.flashes[deviceId(this.stage, device) - 1]!.powered;
  }

  /** Power of a device fails so many steps of its flash from now on, whether it has power now or not. */
  failFlashAfter(device: string, steps: number): void {
    this.stage.flashes[deviceId(this.stage, device) - 1]!.failAfter(steps);
  }

  /** The bench as it stands; it may run on, the snapshot stays. */
  snapshot(): Snapshot {
    const kept = this.fork();
    return { open: () => kept.fork() };
  }

  private nextEventMs(): number {
    const { day, world } = this.stage;
    return day.events[world.nextEvent]?.atMs ?? Infinity;
  }

  private wake(dueMs: number): void {
    const { world, clock } = this.stage;
    clock.moveTo(dueMs);
    const index = world.wakesMs.indexOf(dueMs);
    world.cause = world.causes[index]!;
    advance(this.stage, index + 1);
  }

  private perform(due: Occurrence): void {
    const { stage } = this;
    stage.world.cause = 0;
    switch (due.of) {
      case 'arrival':
        arrive(stage, due);
        break;
      case 'stop':
        stopTool(stage, due.tool, due.run);
        break;
      case 'window':
        endWindow(stage, due);
        break;
      case 'sampled window':
        endSampledWindow(stage, due);
        break;
      case 'set down':
        setDown(stage, due.tool);
        break;
      case 'counter input':
        inputToCounter(stage, due.tool, due.input, due.cause);
        break;
      case 'wearable input':
        inputToWearable(stage, due.worker, due.input, due.cause);
        break;
      case 'task':
        goOn(stage, due.task);
        break;
      case 'return':
        returnFrom(stage, due.place);
        break;
      case 'clear air':
        liftAir(stage, due.tool, due.worker, due.fault);
        break;
      case 'good sensor':
        liftSensor(stage, due.tool, due.fault);
        break;
      case 'power':
        powerBack(stage, due.device, due.start);
        break;
      case 'erased':
        if (deviceState(stage, due.device).starts === due.start) stage.flashes[due.device - 1]!.finishErase();
        break;
      case 'cell':
        cellCrossed(stage, due.device, due.plan);
        break;
      case 'drift':
        driftOn(stage, due.device, due.fault, due.drift);
        break;
      case 'true clock':
        endClockFault(stage, due.device, due.fault);
        break;
      case 'attack':
        goOnAttacking(stage, due.attack);
        break;
      case 'attack over':
        endAttack(stage, due.attack);
        break;
      case 'checkpoint':
        checkpoint(stage);
    }
  }
}

function newStage(day: Day, world: World, workshop: Workshop, random: Randomness, recorder: Recorder | null): Stage {
  const tracer = recorder === null ? null : new Tracer(recorder, world);
  const clock = new VirtualClock(world.clock);
  return { day, world, clock, workshop, counters: [], wearables: [], flashes: [], random, tracer };
}

function workshopOf({ engine = tableEngine, counter, keys = true }: BenchOptions): Workshop {
  return {
    engine,
    counter: counter ?? ((board) => new ModelCounter(board, engine)),
    cipher: keys ? CHIP : NO_KEYS,
  };
}
