// Levels of 100 ms windows from a tool that starts and stops at any millisecond: a window in which it ran for a part reads the
// energy mean of its parts, rounded to whole mm/s².

const WINDOW_MS = 100;

export interface WindowState {
  /** Level that goes on from now, and since when. */
  levelMm: number;
  sinceMs: number;
  /** Energy gathered in the window that sinceMs lies in, (mm/s²)²·ms. */
  energy: number;
}

export function windowState(levelMm: number): WindowState {
  return { levelMm, sinceMs: 0, energy: 0 };
}

/**
 * The level changes at nowMs. Returns the level that the window now being gathered will read if nothing changes again, and
 * the time at which it ends, from which on the windows read the new level; or null where nowMs begins a window.
 */
export function changeLevel(
  state: WindowState,
  nowMs: number,
  levelMm: number,
): { readMm: number; endsMs: number } | null {
  const beginsMs = nowMs - (nowMs % WINDOW_MS);
  const gatheredFromMs = Math.max(beginsMs, state.sinceMs);
  const before = state.sinceMs >= beginsMs ? state.energy : 0;
  state.energy = before + state.levelMm * state.levelMm * (nowMs - gatheredFromMs);
  state.levelMm = levelMm;
  state.sinceMs = nowMs;
  if (nowMs === beginsMs) {
    state.energy = 0;
    return null;
  }
  const endsMs = beginsMs + WINDOW_MS;
  const energy = state.energy + levelMm * levelMm * (endsMs - nowMs);
  return { readMm: Math.round(Math.sqrt(energy / WINDOW_MS)), endsMs };
}
