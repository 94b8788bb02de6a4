// What the files of the bench share: the day, the world, the devices in it and the ways to reach them.
// A device is reached through the functions at the end: they bring it to the present moment first, and note afterwards
// when it wants to be woken. One without power is not reached at all.
import type { SimFlash } from '../../sim/flash/flash.js';
import type { VirtualClock } from '../../sim/kernel/clock.js';
import { localMs, worldMs } from '../../sim/oscillator/oscillator.js';
import type { Cipher } from '../link/cipher.js';
import type { EngineMaker } from '../port/engine.js';
import type { Counter, CounterInput, CounterMaker } from '../port/port.js';
import type { Day } from '../scenario/day.js';
import type { Wearable, WearableInput } from '../wearable/wearable.js';
import type { Randomness } from './randomness.js';
import type { Tracer } from './tracer.js';
import type { DeviceState, Occurrence, World } from './world.js';

/** What devices are made with, whenever one starts. */
export interface Workshop {
  readonly counter: CounterMaker;
  /** What runs a wearable's statechart. */
  readonly engine: EngineMaker;
  readonly cipher: Cipher;
}

export interface Stage {
  readonly day: Day;
  readonly world: World;
  readonly clock: VirtualClock<Occurrence>;
  readonly workshop: Workshop;
  readonly counters: Counter[];
  readonly wearables: Wearable[];
  /** By identity - 1. */
  readonly flashes: SimFlash[];
  readonly random: Randomness;
  /** null where only the outcome is wanted. */
  readonly tracer: Tracer | null;
}

/** Identities: counters 1…, in the order of the tools, then wearables in the order of the workers. */
export function counterId(tool: number): number {
  return tool + 1;
}

export function wearableId(stage: Stage, worker: number): number {
  return stage.day.tools.length + worker + 1;
}

export function isCounter(stage: Stage, id: number): boolean {
  return id <= stage.day.tools.length;
}

/** Index of the worker whose wearable this is. */
export function workerOf(stage: Stage, id: number): number {
  return id - stage.day.tools.length - 1;
}

/** A tool's or a worker's name, by the identity of the device. */
export function nameOf(stage: Stage, id: number): string {
  const named = isCounter(stage, id) ? stage.day.tools[id - 1] : stage.day.workers[workerOf(stage, id)];
  if (named === undefined) throw new Error(`no device has the identity ${id}`);
  return named.name;
}

/** The state of the device with this identity, as the world has it. */
export function deviceState(stage: Stage, id: number): DeviceState {
  const state = stage.world.devices[id - 1];
  if (state === undefined) throw new Error(`no device has the identity ${id}`);
  return state;
}

export function deviceOf(stage: Stage, id: number): Counter | Wearable {
  const device = isCounter(stage, id) ? stage.counters[id - 1] : stage.wearables[workerOf(stage, id)];
  if (device === undefined) throw new Error(`no device has the identity ${id}`);
  return device;
}

/** Brings a device to the present moment; what it does on the way is caused by what last reached it. */
export function bringUp(stage: Stage, id: number): void {
  const { world } = stage;
  const { cause } = world;
  world.cause = world.causes[id - 1]!;
  advance(stage, id);
  world.cause = cause;
}

/** Advances a device to now and notes when it wants to be woken. */
export function advance(stage: Stage, id: number): void {
  const { world } = stage;
  const state = deviceState(stage, id);
  world.wakesMs[id - 1] = Infinity;
  if (!state.on) return;
  const nextMs = deviceOf(stage, id).advance(localMs(state.clock, world.clock.nowMs));
  // Its power may have failed while it did something.
  if (state.on) world.wakesMs[id - 1] = worldMs(state.clock, nextMs);
}

/** Gives a counter a logical input, caused by the event n; the trace shows it. */
export function inputToCounter(stage: Stage, tool: number, input: CounterInput, cause: number): void {
  const { world, tracer } = stage;
  const id = counterId(tool);
  bringUp(stage, id);
  if (!deviceState(stage, id).on) return;
  world.cause = cause;
  const by = nameOf(stage, id);
  if (tracer !== null) world.cause = traceCounterInput(stage, tracer, by, input);
  world.causes[id - 1] = world.cause;
  stage.counters[tool]!.input(input);
  advance(stage, id);
}

function traceCounterInput(stage: Stage, tracer: Tracer, by: string, input: CounterInput): number {
  switch (input.input) {
    case 'turn':
      return tracer.add(by, 'input.turn', { detents: input.detents });
    case 'touch':
      return tracer.add(by, 'input.touch', { peer: nameOf(stage, input.peer) });
    default:
      return tracer.add(by, `input.${input.input}`, {});
  }
}

export function inputToWearable(stage: Stage, worker: number, input: WearableInput, cause: number): void {
  const { world, tracer } = stage;
  const id = wearableId(stage, worker);
  bringUp(stage, id);
  if (!deviceState(stage, id).on) return;
  world.cause = cause;
  const by = nameOf(stage, id);
  if (tracer !== null) {
    world.cause =
      input.input === 'touch'
        ? tracer.add(by, 'input.touch', { peer: nameOf(stage, input.peer) })
        : tracer.add(by, `input.${input.input}`, {});
  }
  world.causes[id - 1] = world.cause;
  stage.wearables[worker]!.input(input);
  advance(stage, id);
}
