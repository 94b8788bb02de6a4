// What a voltage means to a device, and when a cell will next come to mean something else.
import { type CellState, chargeAt, voltageMv } from './cell.js';

/** mV under the load at which they are looked at; what is below has crossed. Invented, but of the right size. */
export const THRESHOLD_MV = {
  /** The best level ends. */
  full: 2800,
  /** The wearer is told. */
  low: 2600,
  /** CEL-1: below it no operation of the flash starts. */
  safe: 2400,
  /** The logic stops. */
  brownOut: 2000,
} as const;

/** From the highest down. */
const THRESHOLDS: readonly number[] = [THRESHOLD_MV.full, THRESHOLD_MV.low, THRESHOLD_MV.safe, THRESHOLD_MV.brownOut];

/** Halvings until one ms is left of any span of time that is a safe integer. */
const MAX_HALVINGS = 53;

/**
 * The first ms after nowMs at which the voltage under underMicroamps lies below a threshold that it still holds at nowMs,
 * if what is drawn stays as it is; Infinity where nothing is drawn or none is left to cross.
 */
export function nextCrossingMs(state: CellState, nowMs: number, underMicroamps: number): number {
  const mv = voltageMv(state, nowMs, underMicroamps);
  const threshold = THRESHOLDS.find((at) => at <= mv);
  if (threshold === undefined || state.loadMicroamps === 0) return Infinity;
  let holdsMs = nowMs;
  let crossedMs = nowMs + Math.ceil(chargeAt(state, nowMs) / state.loadMicroamps);
  if (voltageMv(state, crossedMs, underMicroamps) >= threshold) return Infinity;
  for (let halving = 0; halving < MAX_HALVINGS && crossedMs - holdsMs > 1; halving++) {
    const middleMs = holdsMs + Math.floor((crossedMs - holdsMs) / 2);
    if (voltageMv(state, middleMs, underMicroamps) >= threshold) holdsMs = middleMs;
    else crossedMs = middleMs;
  }
  return crossedMs;
}
