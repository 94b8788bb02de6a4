// Tools at work: what truly runs, and what a counter's sensor reads of it.
import { CHARACTERS } from '../../sim/handwork/levels.js';
import { changeLevel } from '../../sim/handwork/windows.js';
import { localMs, worldMs } from '../../sim/oscillator/oscillator.js';
import { loadCell } from './power/cells.js';
import { advance, bringUp, counterId, deviceState, type Stage } from './stage.js';
import type { Occurrence, Run } from './world.js';

/** Starts a tool for forMs; the event that says so is the cause of the moment. */
export function startTool(stage: Stage, tool: number, worker: number, held: boolean, forMs: number): void {
  const { world, clock, day } = stage;
  world.lastRun += 1;
  world.tools[tool]!.run = { worker, held, run: world.lastRun };
  loadCell(stage, counterId(tool), true);
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
  loadCell(stage, counterId(tool), false);
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
  const id = counterId(tool);
  const { window } = world.tools[tool]!;
  const { on, clock: oscillator, starts } = deviceState(stage, id);
  if (!on) {
    window.levelMm = levelMm;
    return;
  }
  const partial = changeLevel(window, localMs(oscillator, clock.nowMs), levelMm);
  if (partial !== null) {
    const { endsMs } = partial;
    const delayMs = worldMs(oscillator, endsMs) - clock.nowMs;
    clock.arm(delayMs, { of: 'window', tool, endsMs, start: starts, cause: world.cause });
  }
  giveWindow(stage, tool, partial?.readMm ?? levelMm, world.cause);
}

/** A window that the vibration changed within is over; where the counter's clock was set slower meanwhile it is not yet. */
export function endWindow(stage: Stage, due: Occurrence & { of: 'window' }): void {
  const { world, clock } = stage;
  const { on, clock: oscillator, starts } = deviceState(stage, counterId(due.tool));
  if (!on || starts !== due.start) return;
  const endsMs = worldMs(oscillator, due.endsMs);
  if (endsMs > clock.nowMs) clock.arm(endsMs - clock.nowMs, due);
  else giveWindow(stage, due.tool, world.tools[due.tool]!.window.levelMm, due.cause);
}

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
