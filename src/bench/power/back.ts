// Power is back: the device starts with nothing but what its flash holds, and with a clock that begins at 0.
import { windowState } from '../../../sim/handwork/windows.js';
import { restart } from '../../../sim/oscillator/oscillator.js';
import { startDevice } from '../devices.js';
import { giveWindow } from '../give-window.js';
import { followSamples } from '../samples.js';
import { advance, deviceState, isCounter, nameOf, type Stage } from '../stage.js';
import { holdsPower, planCell } from './cells.js';

/** A cell that is too poor to start on is tried again so often. */
const TRY_AGAIN_MS = 600_000;

export function powerBack(stage: Stage, id: number, start: number): void {
  const { world, tracer, clock } = stage;
  const state = deviceState(stage, id);
  if (state.on || state.starts !== start) return;
  if (!holdsPower(stage, id)) {
    clock.arm(TRY_AGAIN_MS, { of: 'power', device: id, start });
    return;
  }
  world.cause = tracer?.add(nameOf(stage, id), 'fault.lifted', { what: 'power' }) ?? 0;
  world.causes[id - 1] = world.cause;
  state.on = true;
  state.clock = restart(state.clock, world.clock.nowMs);
  stage.flashes[id - 1]!.powerBack();
  planCell(stage, id);
  startDevice(stage, id);
  if (isCounter(stage, id)) beginWindows(stage, id - 1);
  advance(stage, id);
}

/** The counter's windows begin with its clock. */
function beginWindows(stage: Stage, tool: number): void {
  const state = stage.world.tools[tool]!;
  if (state.motions.length > 0) {
    followSamples(stage, tool);
    return;
  }
  state.window = windowState(state.window.levelMm);
  giveWindow(stage, tool, state.window.levelMm, stage.world.cause);
}
