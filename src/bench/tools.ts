// Tools at work: what truly runs, and what a counter's sensor reads of it.
import { CHARACTERS } from '../../sim/handwork/levels.js';
import { changeLevel } from '../../sim/handwork/windows.js';
import { advance, bringUp, counterId, type Stage } from './stage.js';
import type { Run } from './world.js';

/** Starts a tool for forMs; the event that says so is the cause of the moment. */
export function startTool(stage: Stage, tool: number, worker: number, held: boolean, forMs: number): void {
  const { world, clock, day } = stage;
  world.lastRun += 1;
  world.tools[tool]!.run = { worker, held, run: world.lastRun };
  read(stage, tool, CHARACTERS[day.tools[tool]!.hand].runningMm);
  clock.arm(forMs, { of: 'stop', tool, run: world.lastRun });
}

/** Ends a run of a tool, if it is still the one that goes on. */
export function stopTool(stage: Stage, tool: number, run: number): void {
  const { world, tracer, day } = stage;
  const state = world.tools[tool]!;
  if (state.run?.run !== run) return;
  const spec = day.tools[tool]!;
  const cause = tracer?.add(day.workers[state.run.worker]!.name, 'hand.stop', { tool: spec.name });
  world.cause = cause ?? 0;
  state.run = null;
  read(stage, tool, CHARACTERS[spec.hand].restingMm);
}

/** The run that a worker holds in the hand, and of which tool. */
export function heldRun(stage: Stage, worker: number): { readonly tool: number; readonly run: Run } | undefined {
  for (const [tool, { run }] of stage.world.tools.entries()) {
    if (run?.worker === worker && run.held) return { tool, run };
  }
  return undefined;
}

/** The vibration changes now; a window that it changes within reads a mean of its parts. */
function read(stage: Stage, tool: number, levelMm: number): void {
  const { world, clock } = stage;
  const partial = changeLevel(world.tools[tool]!.window, clock.nowMs, levelMm);
  if (partial !== null) clock.arm(partial.endsMs - clock.nowMs, { of: 'window', tool, cause: world.cause });
  giveWindow(stage, tool, partial?.readMm ?? levelMm, world.cause);
}

/** Tells the counter what its windows read from now on, the one that is being gathered included. */
export function giveWindow(stage: Stage, tool: number, levelMm: number, cause: number): void {
  const { world } = stage;
  const id = counterId(tool);
  bringUp(stage, id);
  if (cause !== 0) world.causes[id - 1] = cause;
  stage.counters[tool]!.window(levelMm, world.tools[tool]!.sensor);
  advance(stage, id);
}
