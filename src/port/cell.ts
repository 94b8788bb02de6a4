// What the voltage of a device's cell, in mV under working load, means to it (CEL-1, TAL-1).

export const LOW_MV = 2600;
/** Below it no flash operation starts. */
export const SAFE_MV = 2400;
const HALF_MV = 2800;

/** As in a tally: 3 full, 2 half, 1 low, 0 empty. */
export function cellLevel(millivolts: number): number {
  if (millivolts < SAFE_MV) return 0;
  if (millivolts < LOW_MV) return 1;
  return millivolts < HALF_MV ? 2 : 3;
}

/** A sleeping device wakes only somewhat above the voltage at which it fell asleep, or it would do both all the time. */
const HOLDS_MV = SAFE_MV + 100;
const FIRST_LOOK_MS = 1000;
const MOST_DOUBLINGS = 6;

/** What a device knows of its cell: mV under working load; whether it sleeps; how often it has looked since it does. */
export interface CellWatch {
  cellMv: number;
  asleep: boolean;
  looks: number;
}

export function isPoor({ cellMv }: Readonly<CellWatch>): boolean {
  return cellMv < SAFE_MV;
}

export function holds({ cellMv }: Readonly<CellWatch>): boolean {
  return cellMv >= HOLDS_MV;
}

/** CEL-1: how long a sleeping device waits before it looks at its cell again; each time it waits longer, up to a minute. */
export function nextLookMs(watch: CellWatch): number {
  const delayMs = FIRST_LOOK_MS * 2 ** Math.min(MOST_DOUBLINGS, watch.looks);
  watch.looks += 1;
  return delayMs;
}
