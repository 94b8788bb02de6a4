// What goes wrong in the world: the air, sensors, power, cells, clocks, flash, and people with bad intent.
import { beginAttack } from '../attacks/attack.js';
import { beginClockFault } from '../clocks.js';
import { giveWindow } from '../give-window.js';
import { setCell } from '../power/cells.js';
import { powerFails } from '../power/fails.js';
import { bringUp, deviceState, type Stage } from '../stage.js';
import { clearAir } from '../world.js';
import { deviceId, toolIndex, workerIndex } from './names.js';
import { cause, type Verbs } from './verbs.js';

export const FAULTS: Verbs<'air' | 'sensor' | 'cut' | 'cell' | 'exchange' | 'clock' | 'flash' | 'attack'> = {
  air: (stage, event) => {
    const { world, clock, tracer } = stage;
    const tool = toolIndex(stage, event.tool);
    const worker = workerIndex(stage, event.worker);
    const [delayFromMs, delayToMs] = event.delayMs;
    const { num: lossNum, den: lossDen } = event.loss;
    const { num: duplicateNum, den: duplicateDen } = event.duplicate;
    const { num: errorNum, den: errorDen } = event.errors;
    const conditions = { delayFromMs, delayToMs, duplicateDen, duplicateNum, errorDen, errorNum, lossDen, lossNum };
    world.lastFault += 1;
    world.air[tool]![worker] = { ...conditions, fault: world.lastFault };
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

  cut: (stage, event) => {
    const id = deviceId(stage, event.device);
    bringUp(stage, id);
    const state = deviceState(stage, id);
    if (!state.on) return 'no power';
    if (event.when === 'now') {
      powerFails(stage, id, 'now', event.forMs);
      return '';
    }
    state.plannedCutMs = event.forMs;
    cause(stage, stage.tracer?.add(event.device, 'fault.planned', { what: `cut ${event.when}` }));
    if (event.when === 'write') stage.flashes[id - 1]!.failAfter(event.afterBytes);
    else stage.flashes[id - 1]!.failInErase();
    return '';
  },

  cell: (stage, event) => {
    const percent = event.toPercent;
    cause(stage, stage.tracer?.add(event.device, 'fault.cell', { percent }));
    setCell(stage, deviceId(stage, event.device), percent);
    return '';
  },

  exchange: (stage, event) => {
    const id = deviceId(stage, event.device);
    bringUp(stage, id);
    powerFails(stage, id, 'exchange', event.forMs);
    setCell(stage, id, 100);
    return '';
  },

  clock: (stage, event) => {
    const { driftPpm, ppm } = event;
    cause(stage, stage.tracer?.add(event.device, 'fault.clock', { driftPpm, ppm }));
    beginClockFault(stage, deviceId(stage, event.device), ppm, driftPpm, event.forMs);
    return '';
  },

  flash: (stage, event) => {
    cause(stage, stage.tracer?.add(event.device, 'fault.page', { page: event.page }));
    stage.flashes[deviceId(stage, event.device) - 1]!.spoil(event.page);
    return '';
  },

  attack: (stage, event) => {
    const { how, everyMs } = event;
    const tool = toolIndex(stage, event.tool);
    const worker = workerIndex(stage, event.worker);
    cause(stage, stage.tracer?.add(event.tool, 'fault.attack', { everyMs, how, worker: event.worker }));
    beginAttack(stage, { how, tool, worker, everyMs }, event.forMs);
    return '';
  },
};

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
