// The devices' clocks run fast or slow, and drift (CLK-1).
import { setRate } from '../../sim/oscillator/oscillator.js';
import { advance, bringUp, deviceState, nameOf, type Stage } from './stage.js';
import type { Drift } from './world.js';

const HOUR_MS = 3_600_000;
/** A drift is made in steps so far apart. */
const STEP_MS = 300_000;

export function beginClockFault(stage: Stage, id: number, ppm: number, driftPpm: number, forMs: number | null): void {
  const { world, clock } = stage;
  const state = deviceState(stage, id);
  world.lastFault += 1;
  state.clockFault = world.lastFault;
  changeRate(stage, id, ppm);
  const fault = state.clockFault;
  if (driftPpm !== 0) {
    clock.arm(STEP_MS, { of: 'drift', device: id, fault, drift: { ppm, driftPpm, sinceMs: clock.nowMs } });
  }
  if (forMs !== null) clock.arm(forMs, { of: 'true clock', device: id, fault });
}

export function driftOn(stage: Stage, id: number, fault: number, drift: Drift): void {
  const { clock } = stage;
  if (deviceState(stage, id).clockFault !== fault) return;
  const gained = Math.round((drift.driftPpm * (clock.nowMs - drift.sinceMs)) / HOUR_MS);
  changeRate(stage, id, drift.ppm + gained);
  clock.arm(STEP_MS, { of: 'drift', device: id, fault, drift });
}

export function endClockFault(stage: Stage, id: number, fault: number): void {
  const state = deviceState(stage, id);
  if (state.clockFault !== fault) return;
  state.clockFault = 0;
  stage.world.cause = stage.tracer?.add(nameOf(stage, id), 'fault.lifted', { what: 'clock' }) ?? 0;
  changeRate(stage, id, 0);
}

function changeRate(stage: Stage, id: number, ppm: number): void {
  const state = deviceState(stage, id);
  bringUp(stage, id);
  state.clock = setRate(state.clock, stage.world.clock.nowMs, ppm);
  advance(stage, id);
}
