// The way by which what a sensor reads gets to its counter.
import { advance, bringUp, counterId, deviceState, type Stage } from './stage.js';

/** Tells the counter what its windows read from now on, the one that is being gathered included. */
export function giveWindow(stage: Stage, tool: number, levelMm: number, cause: number): void {
  const { world } = stage;
  const id = counterId(tool);
  bringUp(stage, id);
  if (!deviceState(stage, id).on) return;
  if (cause !== 0) world.causes[id - 1] = cause;
  stage.counters[tool]!.window(levelMm, world.tools[tool]!.sensor);
  advance(stage, id);
}
