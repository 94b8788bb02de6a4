// What the day orders, done in the world: one function a verb. An event that cannot happen comes to nothing and is traced as
// such, so that any event of a day may be left out.
import { RING_PRESSES } from '../counter/panel.js';
import { inputOf, shortestFor } from '../port/gesture.js';
import type { DayEvent, DayVerb } from '../scenario/day.js';
import { SURFACE_TOUCHES } from '../wearable/surface.js';
import type { NothingReason } from './nothing.js';
import { counterId, inputToCounter, inputToWearable, type Stage, wearableId } from './stage.js';
import { beginPair, beginSet } from './tasks.js';
import { giveWindow, heldRun, startTool, stopTool } from './tools.js';
import { clearAir, SITE } from './world.js';

/** '' where it happened. */
type Reason = '' | NothingReason;

type Verbs = { readonly [V in DayVerb]: (stage: Stage, event: DayEvent & { readonly do: V }) => Reason };

export function happen(stage: Stage, event: DayEvent): void {
  const { world, tracer } = stage;
  world.cause = 0;
  const act = VERBS[event.do] as (stage: Stage, event: DayEvent) => Reason;
  const reason = act(stage, event);
  if (reason !== '') tracer?.add(actorOf(event), 'hand.nothing', { reason, verb: event.do });
}

const VERBS: Verbs = {
  run: (stage, event) => {
    const tool = toolIndex(stage, event.tool);
    const worker = workerIndex(stage, event.by);
    if (stage.world.tools[tool]!.run !== null) return 'already running';
    if (event.held && heldRun(stage, worker) !== undefined) return 'hands full';
    if (!inReach(stage, tool, worker)) return 'out of reach';
    cause(stage, stage.tracer?.add(event.by, 'hand.start', { held: event.held, tool: event.tool }));
    startTool(stage, tool, worker, event.held, event.forMs);
    return '';
  },

  set: (stage, event) => {
    const tool = toolIndex(stage, event.tool);
    if (stage.world.busy[tool]) return 'ring in use';
    beginSet(stage, tool, event.toTenths, begins(stage, event.tool, 'set'));
    return '';
  },

  pair: (stage, event) => {
    const tool = toolIndex(stage, event.tool);
    const worker = workerIndex(stage, event.with);
    if (stage.world.busy[tool]) return 'ring in use';
    if (!inReach(stage, tool, worker)) return 'out of reach';
    beginPair(stage, tool, worker, begins(stage, event.tool, 'pair'));
    return '';
  },

  press: (stage, event) => {
    const tool = toolIndex(stage, event.tool);
    const { input, afterMs } = inputOf(RING_PRESSES, event.forMs);
    const n = cause(stage, stage.tracer?.add(event.tool, 'hand.press', { forMs: event.forMs }));
    stage.clock.arm(afterMs, { of: 'counter input', tool, input: { input }, cause: n });
    return '';
  },

  turn: (stage, event) => {
    const tool = toolIndex(stage, event.tool);
    const n = cause(stage, stage.tracer?.add(event.tool, 'hand.turn', { detents: event.detents }));
    for (let made = 0; made < Math.abs(event.detents); made++) {
      const input = { input: 'turn', detents: Math.sign(event.detents) } as const;
      stage.clock.arm(made * event.everyMs, { of: 'counter input', tool, input, cause: n });
    }
    return '';
  },

  touch: (stage, event) => {
    const tool = toolIndex(stage, event.tool);
    const worker = workerIndex(stage, event.with);
    if (!inReach(stage, tool, worker)) return 'out of reach';
    const n = cause(stage, stage.tracer?.add(event.with, 'hand.touch', { tool: event.tool }));
    inputToCounter(stage, tool, { input: 'touch', peer: wearableId(stage, worker) }, n);
    inputToWearable(stage, worker, { input: 'touch', peer: counterId(tool) }, n);
    return '';
  },

  tap: (stage, event) => touchSurface(stage, event.worker, event.forMs),

  close: (stage, event) => touchSurface(stage, event.worker, shortestFor(SURFACE_TOUCHES, 'close')),

  readout: (stage, event) => {
    if (stage.day.tools.some(({ name }) => name === event.device)) throw new Error('not built yet');
    const n = cause(stage, stage.tracer?.add(event.device, 'hand.readout', {}));
    inputToWearable(stage, workerIndex(stage, event.device), { input: 'readout' }, n);
    return '';
  },

  leave: (stage, event) => {
    const leaving = event.who.filter((name) => placeOf(stage, name) === SITE);
    if (leaving.length === 0) return 'away already';
    const { world, clock } = stage;
    world.lastPlace += 1;
    cause(stage, stage.tracer?.add(event.who[0]!, 'hand.leave', { who: leaving }));
    for (const name of leaving) moveTo(stage, name, world.lastPlace);
    letGo(stage);
    if (event.forMs !== null) clock.arm(event.forMs, { of: 'return', place: world.lastPlace });
    return '';
  },

  return: (stage, event) => {
    const away = event.who.filter((name) => placeOf(stage, name) !== SITE);
    return away.length === 0 ? 'here already' : comeBack(stage, away);
  },

  air: (stage, event) => {
    if (event.errors.num > 0) throw new Error('not built yet');
    const { world, clock, tracer } = stage;
    const tool = toolIndex(stage, event.tool);
    const worker = workerIndex(stage, event.worker);
    const [delayFromMs, delayToMs] = event.delayMs;
    const { num: lossNum, den: lossDen } = event.loss;
    const { num: duplicateNum, den: duplicateDen } = event.duplicate;
    const conditions = { delayFromMs, delayToMs, duplicateDen, duplicateNum, lossDen, lossNum };
    world.lastFault += 1;
    world.air[tool]![worker] = { ...conditions, errorDen: 1, errorNum: 0, fault: world.lastFault };
    tracer?.add(event.tool, 'fault.air', { ...conditions, worker: event.worker });
    if (event.forMs !== null) clock.arm(event.forMs, { of: 'clear air', tool, worker, fault: world.lastFault });
    return '';
  },

  sensor: (stage, event) => {
    const { world, clock, tracer } = stage;
    const tool = toolIndex(stage, event.tool);
    const state = world.tools[tool]!;
    world.lastFault += 1;
    state.sensor = event.fault;
    state.sensorFault = world.lastFault;
    const n = cause(stage, tracer?.add(event.tool, 'fault.sensor', { fault: event.fault }));
    giveWindow(stage, tool, state.window.levelMm, n);
    clock.arm(event.forMs, { of: 'good sensor', tool, fault: world.lastFault });
    return '';
  },

  cut: notBuilt,
  cell: notBuilt,
  exchange: notBuilt,
  clock: notBuilt,
  flash: notBuilt,
  attack: notBuilt,
};

function notBuilt(): never {
  throw new Error('not built yet');
}

export function liftAir(stage: Stage, tool: number, worker: number, fault: number): void {
  const { world, tracer, day } = stage;
  if (world.air[tool]![worker]!.fault !== fault) return;
  world.air[tool]![worker] = clearAir();
  tracer?.add(day.tools[tool]!.name, 'fault.lifted', { what: `air ${day.workers[worker]!.name}` });
}

export function liftSensor(stage: Stage, tool: number, fault: number): void {
  const { world, tracer, day } = stage;
  const state = world.tools[tool]!;
  if (state.sensorFault !== fault) return;
  state.sensor = 'good';
  const n = cause(stage, tracer?.add(day.tools[tool]!.name, 'fault.lifted', { what: 'sensor' }));
  giveWindow(stage, tool, state.window.levelMm, n);
}

/** Those who are still where they went together come back. */
export function returnFrom(stage: Stage, place: number): void {
  const { day } = stage;
  const names = [...day.workers, ...day.tools].map(({ name }) => name);
  const away = names.filter((name) => placeOf(stage, name) === place);
  if (away.length > 0) comeBack(stage, away);
}

function comeBack(stage: Stage, names: readonly string[]): Reason {
  stage.tracer?.add(names[0]!, 'hand.return', { who: names });
  for (const name of names) moveTo(stage, name, SITE);
  letGo(stage);
  return '';
}

function touchSurface(stage: Stage, name: string, forMs: number): Reason {
  const worker = workerIndex(stage, name);
  const { input, afterMs } = inputOf(SURFACE_TOUCHES, forMs);
  const n = cause(stage, stage.tracer?.add(name, 'hand.tap', { forMs }));
  stage.clock.arm(afterMs, { of: 'wearable input', worker, input: { input }, cause: n });
  return '';
}

/** Nobody holds a tool that is somewhere else: it is let go, and stops. */
function letGo(stage: Stage): void {
  const { world } = stage;
  for (const [tool, { run, place }] of world.tools.entries()) {
    if (run?.held && world.workers[run.worker]!.place !== place) stopTool(stage, tool, run.run);
  }
}

function begins(stage: Stage, tool: string, verb: string): number {
  return cause(stage, stage.tracer?.add(tool, 'hand.begins', { verb }));
}

/** Makes an event that was just traced the cause of what follows. */
function cause(stage: Stage, n: number | undefined): number {
  stage.world.cause = n ?? 0;
  return stage.world.cause;
}

function inReach(stage: Stage, tool: number, worker: number): boolean {
  return stage.world.tools[tool]!.place === stage.world.workers[worker]!.place;
}

function placeOf(stage: Stage, name: string): number {
  return placed(stage, name).place;
}

function moveTo(stage: Stage, name: string, place: number): void {
  placed(stage, name).place = place;
}

function placed(stage: Stage, name: string): { place: number } {
  const tool = stage.day.tools.findIndex((spec) => spec.name === name);
  return stage.world.tools[tool] ?? stage.world.workers[workerIndex(stage, name)]!;
}

function toolIndex(stage: Stage, name: string): number {
  const index = stage.day.tools.findIndex((tool) => tool.name === name);
  if (index === -1) throw new Error(`the day has no tool ${name}`);
  return index;
}

function workerIndex(stage: Stage, name: string): number {
  const index = stage.day.workers.findIndex((worker) => worker.name === name);
  if (index === -1) throw new Error(`the day has no worker ${name}`);
  return index;
}

function actorOf(event: DayEvent): string {
  switch (event.do) {
    case 'run':
      return event.by;
    case 'leave':
    case 'return':
      return event.who[0]!;
    case 'tap':
    case 'close':
      return event.worker;
    default:
      return 'device' in event ? event.device : event.tool;
  }
}
