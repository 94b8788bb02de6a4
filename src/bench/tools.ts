// Tools at work: what truly runs, and what a counter's sensor reads of it.
import { CHARACTERS } from '../../sim/handwork/levels.js';
import { changeLevel } from '../../sim/handwork/windows.js';
import { localMs, worldMs } from '../../sim/oscillator/oscillator.js';
import { giveWindow } from './give-window.js';
import { loadCell } from './power/cells.js';
import { dieDown, leaveSamples, move } from './samples.js';
import { counterId, deviceState, type Stage } from './stage.js';
import type { Occurrence, Run } from './world.js';

/** Starts a tool for forMs; the event that says so is the cause of the moment. */
export function startTool(stage: Stage, tool: number, worker: number, held: boolean, forMs: number): void {
  const { world, clock, day } = stage;
  world.lastRun += 1;
  world.tools[tool]!.run = { worker, held, run: world.lastRun };
  loadCell(stage, counterId(tool), true);
  const { hand, samples } = day.tools[tool]!;
  if (samples === undefined) read(stage, tool, CHARACTERS[hand].runningMm);
  else move(stage, tool, held ? samples : 'laid', forMs);
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
  // What is made of samples has died down by now.
  if (spec.samples === undefined) read(stage, tool, CHARACTERS[spec.hand].restingMm);
}

/** A held run ends early: nobody holds the tool any more. One that is made of samples takes a moment to come to rest. */
export function letGo(stage: Stage, tool: number, run: Run): void {
  if (stage.day.tools[tool]!.samples === undefined) {
    stopTool(stage, tool, run.run);
    return;
  }
  stage.world.tools[tool]!.run = { ...run, held: false };
  stage.clock.arm(dieDown(stage, tool), { of: 'stop', tool, run: run.run });
}

/** A tool at rest is carried in a van for forMs. */
export function carryTool(stage: Stage, tool: number, forMs: number): void {
  stage.world.tools[tool]!.carried = true;
  move(stage, tool, 'carried', forMs);
  stage.clock.arm(forMs, { of: 'set down', tool });
}

export function setDown(stage: Stage, tool: number): void {
  stage.world.tools[tool]!.carried = false;
  stage.tracer?.add(stage.day.tools[tool]!.name, 'hand.arrive', {});
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
  const state = world.tools[tool]!;
  const { window } = state;
  leaveSamples(state);
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
