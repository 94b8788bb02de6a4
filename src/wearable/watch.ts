// Silence (TAL-6): how long a counter may say nothing before what is known of it is stale, and what is known to run.
import type { Parts } from './parts.js';
import type { Link, WearableState } from './state.js';

const STALE_AFTER_RUNNING_MS = 20_000;
const STALE_AFTER_RESTING_MS = 150_000;

/** Plans a look at silent counters for when the first of them becomes stale, unless one is planned by then. */
export function planCheck(parts: Parts): void {
  const { state } = parts;
  let dueMs = Infinity;
  for (const link of state.links) dueMs = Math.min(dueMs, staleAtMs(link));
  if (dueMs >= (state.checkAtMs ?? Infinity)) return;
  state.checkAtMs = dueMs;
  parts.post(dueMs - parts.nowMs(), { type: 'CHECK' });
}

/** Marks the counters that have been silent for too long. A look that was planned for later than the next comes for nothing. */
export function checkCounters(parts: Parts): void {
  const { state } = parts;
  if (parts.nowMs() !== state.checkAtMs) return;
  state.checkAtMs = null;
  for (const link of state.links) {
    if (staleAtMs(link) <= parts.nowMs()) markStale(parts, link, true);
  }
  noteRunning(parts);
  planCheck(parts);
}

/** The newest session of a counter decides on its mark; the icon on the display stands for any sum that is old. */
export function markStale({ state, board }: Parts, link: Link, stale: boolean): void {
  link.stale = stale;
  if (newestOf(state, link.counter) === link) board.mark(link.counter, 'stale', stale);
}

/** The session of this counter that was paired last, of those that a tally has confirmed. */
export function newestOf(state: WearableState, counter: number): Link | undefined {
  return state.links.findLast((link) => link.counter === counter && link.confirmed);
}

/** Tells the chart where it has changed whether any paired tool is known to run; a stale counter is not known to. */
export function noteRunning(parts: Parts): void {
  const { state } = parts;
  const running = state.links.some((link) => link.running && !link.stale && !link.sealed);
  if (running === state.anyRunning) return;
  state.anyRunning = running;
  parts.send({ type: running ? 'RUNS' : 'RESTS' });
}

/** When a counter becomes stale unless it is heard before; Infinity for one that is, or has nothing more to say. */
function staleAtMs(link: Link): number {
  if (link.sealed || link.stale || !link.confirmed) return Infinity;
  return (link.heardMs ?? 0) + (link.running ? STALE_AFTER_RUNNING_MS : STALE_AFTER_RESTING_MS);
}
