// Tools whose windows come from samples: while something moves one, each window is made of the acceleration that its counter's
// sensor is exposed to, by the front end of the counter; at rest it reads a level again.
import { acceleration, type Sensor } from '../../sim/handwork/acceleration.js';
import { FrontEnd, SETTLE_MS, settledFrontEnd } from '../../sim/handwork/front-end.js';
import { CHARACTERS } from '../../sim/handwork/levels.js';
import { VIBRATIONS, type VibrationName } from '../../sim/handwork/vibrations.js';
import { windowState } from '../../sim/handwork/windows.js';
import { localMs, worldMs } from '../../sim/oscillator/oscillator.js';
import { WINDOW_MS } from '../port/port.js';
import { giveWindow } from './give-window.js';
import { counterId, deviceState, type Stage } from './stage.js';
import type { Occurrence, ToolState } from './world.js';

/** Something moves the tool from now on for forMs, at the end of which it is at rest. */
export function move(stage: Stage, tool: number, vibration: VibrationName, forMs: number): void {
  const fromMs = stage.clock.nowMs;
  const state = stage.world.tools[tool]!;
  state.motions = [...state.motions, { vibration, fromMs, untilMs: fromMs + forMs }];
  followSamples(stage, tool);
}

/** What moves it now dies down; returns the ms until it is at rest. */
export function dieDown(stage: Stage, tool: number): number {
  const { nowMs } = stage.clock;
  const state = stage.world.tools[tool]!;
  let restMs = 0;
  state.motions = state.motions.map((motion) => {
    const untilMs = Math.min(motion.untilMs, nowMs + VIBRATIONS[motion.vibration].spinDownMs);
    restMs = Math.max(restMs, untilMs - nowMs);
    return { ...motion, untilMs };
  });
  followSamples(stage, tool);
  return restMs;
}

/** From now on windows read levels again, whatever has moved it. */
export function leaveSamples(state: ToolState): void {
  state.motions = [];
  state.heard = null;
  state.samplePlan += 1;
}

/** Makes the window that is being gathered, as it will be if nothing changes, and plans to make the next when it ends. */
export function followSamples(stage: Stage, tool: number): void {
  const { world, clock, day } = stage;
  const state = world.tools[tool]!;
  const { on, clock: oscillator } = deviceState(stage, counterId(tool));
  state.samplePlan += 1;
  if (!on) return;
  const localNowMs = localMs(oscillator, clock.nowMs);
  const beginsMs = localNowMs - (localNowMs % WINDOW_MS);
  const endsMs = beginsMs + WINDOW_MS;
  const fromMs = worldMs(oscillator, beginsMs);
  const toMs = worldMs(oscillator, endsMs);
  state.motions = state.motions.filter(({ untilMs }) => untilMs > fromMs - SETTLE_MS);
  const levelMm =
    state.motions.length > 0 ? hear(stage, tool, fromMs, toMs) : CHARACTERS[day.tools[tool]!.hand].restingMm;
  state.window = windowState(levelMm);
  giveWindow(stage, tool, levelMm, world.cause);
  if (state.motions.length === 0) leaveSamples(state);
  else {
    const plan = state.samplePlan;
    clock.arm(toMs - clock.nowMs, { of: 'sampled window', tool, endsMs, plan, cause: world.cause });
  }
}

/** A window is over; where the counter's clock was set slower meanwhile it is not yet. */
export function endSampledWindow(stage: Stage, due: Occurrence & { of: 'sampled window' }): void {
  const { world, clock } = stage;
  const { on, clock: oscillator } = deviceState(stage, counterId(due.tool));
  if (!on || world.tools[due.tool]!.samplePlan !== due.plan) return;
  const endsMs = worldMs(oscillator, due.endsMs);
  if (endsMs > clock.nowMs) {
    clock.arm(endsMs - clock.nowMs, due);
    return;
  }
  world.cause = due.cause;
  followSamples(stage, due.tool);
}

/** The front end goes on from where it was before this window, or where another window or a pause lies between, settles anew. */
function hear({ world, day }: Stage, tool: number, fromMs: number, toMs: number): number {
  const state = world.tools[tool]!;
  const sensor: Sensor = { seed: day.seed, name: `samples ${day.tools[tool]!.name}` };
  const { heard, motions } = state;
  const remembered = heard?.toMs === fromMs ? heard.after : heard?.fromMs === fromMs ? heard.before : null;
  const frontEnd = remembered === null ? settledFrontEnd(sensor, motions, fromMs) : new FrontEnd(remembered);
  const before = frontEnd.state();
  const levelMm = frontEnd.level(acceleration(sensor, motions, fromMs, toMs));
  state.heard = { fromMs, toMs, before, after: frontEnd.state() };
  return levelMm;
}
