// Trigger detection (TRG-1, TRG-2, TRG-3): from the levels of 100 ms windows to stretches of running time.
// Plain integer code, fed with runs of windows of the same level, so that a quiet hour costs as much as a quiet second.

export interface DetectorSettings {
  /** mm/s² */
  readonly onLevelMm: number;
  readonly offLevelMm: number;
  /** Windows in a row. */
  readonly startAfter: number;
  readonly stopAfter: number;
}

export const DETECTOR_DEFAULTS: DetectorSettings = { onLevelMm: 1000, offLevelMm: 600, startAfter: 2, stopAfter: 5 };

export interface DetectorState {
  running: boolean;
  /**
   * Stopped: windows in a row at or above the on level, not yet confirmed. Running: windows in a row below the off level,
   * withheld until a later one reaches it, so that nothing counted is ever taken back.
   */
  pending: number;
}

/** What became of a run of windows, up to the first decision in it. */
export interface Detection {
  /** Windows taken from the run; the rest is to be fed again. */
  used: number;
  /** Windows that now count as running; the last of them is the last one used. */
  counted: number;
  decision: 'none' | 'started' | 'stopped' | 'short';
}

/** Windows of this level until the detector would decide something, Infinity where it never would. */
export function windowsToDecision(settings: DetectorSettings, state: DetectorState, levelMm: number): number {
  if (state.running) return levelMm < settings.offLevelMm ? settings.stopAfter - state.pending : Infinity;
  if (levelMm >= settings.onLevelMm) return settings.startAfter - state.pending;
  return state.pending > 0 ? 1 : Infinity;
}

/** Feeds windows ≥ 1 windows of one level, stops at the first decision, and writes what became of them to `result`. */
export function detect(
  settings: DetectorSettings,
  state: DetectorState,
  levelMm: number,
  windows: number,
  result: Detection,
): void {
  const toDecision = windowsToDecision(settings, state, levelMm);
  const decided = toDecision <= windows;
  result.used = decided ? toDecision : windows;
  result.counted = 0;
  result.decision = 'none';
  if (state.running) detectRunning(settings, state, levelMm, decided, result);
  else detectStopped(settings, state, levelMm, decided, result);
}

function detectStopped(
  settings: DetectorSettings,
  state: DetectorState,
  levelMm: number,
  decided: boolean,
  result: Detection,
): void {
  if (levelMm >= settings.onLevelMm) {
    state.pending += result.used;
    if (!decided) return;
    result.counted = state.pending;
    result.decision = 'started';
    state.running = true;
  } else if (decided) {
    result.decision = 'short';
  }
  state.pending = 0;
}

function detectRunning(
  settings: DetectorSettings,
  state: DetectorState,
  levelMm: number,
  decided: boolean,
  result: Detection,
): void {
  if (levelMm >= settings.offLevelMm) {
    result.counted = state.pending + result.used;
    state.pending = 0;
  } else if (decided) {
    result.decision = 'stopped';
    state.running = false;
    state.pending = 0;
  } else {
    state.pending += result.used;
  }
}
