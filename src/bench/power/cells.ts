// The cells of the devices: what is drawn, and when a voltage comes to mean something else.
import { LOAD_MICROAMPS, newCell, setLoad, voltageMv } from '../../../sim/cell/cell.js';
import { nextCrossingMs, THRESHOLD_MV } from '../../../sim/cell/crossing.js';
import { advance, bringUp, deviceOf, deviceState, type Stage } from '../stage.js';
import { powerFails, RESTART_MS } from './fails.js';

/** What is left in a device's cell from now on, in percent. */
export function setCell(stage: Stage, id: number, leftPercent: number): void {
  const state = deviceState(stage, id);
  state.cell = newCell(stage.world.clock.nowMs, leftPercent, state.cell.loadMicroamps);
  noteCell(stage, id);
}

/** A device draws more while its tool runs. */
export function loadCell(stage: Stage, id: number, runs: boolean): void {
  const state = deviceState(stage, id);
  const loadMicroamps = runs ? LOAD_MICROAMPS.running : LOAD_MICROAMPS.resting;
  state.cell = setLoad(state.cell, stage.world.clock.nowMs, loadMicroamps);
  // A poor cell may sag too far at once.
  if (state.cellPlan !== 0) noteCell(stage, id);
}

/** A threshold was to be crossed by now, unless the plan has changed. */
export function cellCrossed(stage: Stage, id: number, plan: number): void {
  if (deviceState(stage, id).cellPlan === plan) noteCell(stage, id);
}

/** Whether the cell holds the device under what is drawn now. */
export function holdsPower(stage: Stage, id: number): boolean {
  return mvUnder(stage, id, deviceState(stage, id).cell.loadMicroamps) >= THRESHOLD_MV.brownOut;
}

/** Notes the voltage under working load, and plans when it will next mean something else. */
export function planCell(stage: Stage, id: number): void {
  const { world, clock, day } = stage;
  const state = deviceState(stage, id);
  const { nowMs } = world.clock;
  state.cellMv = mvUnder(stage, id, LOAD_MICROAMPS.peak);
  const dueMs = Math.min(
    nextCrossingMs(state.cell, nowMs, LOAD_MICROAMPS.peak),
    nextCrossingMs(state.cell, nowMs, state.cell.loadMicroamps),
  );
  state.cellPlan += 1;
  if (dueMs >= day.untilMs) return;
  clock.arm(dueMs - nowMs, { of: 'cell', device: id, plan: state.cellPlan });
}

/** The voltage may mean something else now: the device is told, or stops. */
function noteCell(stage: Stage, id: number): void {
  const state = deviceState(stage, id);
  bringUp(stage, id);
  planCell(stage, id);
  if (!state.on) return;
  stage.world.causes[id - 1] = stage.world.cause;
  if (!holdsPower(stage, id)) {
    powerFails(stage, id, 'brown-out', RESTART_MS);
    return;
  }
  deviceOf(stage, id).cell(state.cellMv);
  advance(stage, id);
}

function mvUnder(stage: Stage, id: number, loadMicroamps: number): number {
  return voltageMv(deviceState(stage, id).cell, stage.world.clock.nowMs, loadMicroamps);
}
