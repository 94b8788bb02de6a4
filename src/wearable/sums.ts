// Sums over several sessions (ACC-2): each stands at the end of its field, as that of a session does.
import { MAX_DOSE } from '../exposure/dose.js';
import { MAX_WINDOWS } from '../link/layout.js';
import type { SessionSums } from '../port/inner.js';

/** Adds to `sums` what a session has beyond what it had before, which is never less than nothing. */
export function addSums(sums: SessionSums, now: Readonly<SessionSums>, before: Readonly<SessionSums> = NONE): void {
  sums.dose = Math.min(MAX_DOSE, sums.dose + now.dose - before.dose);
  sums.triggerWindows = Math.min(MAX_WINDOWS, sums.triggerWindows + now.triggerWindows - before.triggerWindows);
  sums.unratedWindows = Math.min(MAX_WINDOWS, sums.unratedWindows + now.unratedWindows - before.unratedWindows);
}

const NONE: Readonly<SessionSums> = { dose: 0, triggerWindows: 0, unratedWindows: 0 };
