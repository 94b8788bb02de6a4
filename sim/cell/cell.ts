// The cell of one device over time: what is drawn from it, what is left, what its voltage is.
import { chargeOf, voltageOf } from './curve.js';

/**
 * What a device draws, in µA: asleep; while its tool runs (radio and sensor, averaged); at the peaks, a radio burst or an
 * operation of the flash. The peaks are too short to count in the charge, but the voltage sags under them, so they decide
 * what the cell is still good for. Invented, but of the right size.
 */
export const LOAD_MICROAMPS = { resting: 25, running: 400, peak: 8000 } as const;

/** Plain data. The cell held chargeNc at atMs; since then loadMicroamps are drawn. */
export interface CellState {
  readonly atMs: number;
  readonly chargeNc: number;
  readonly loadMicroamps: number;
}

/**
 * A cell put in at atMs, with leftPercent (whole, 0..100) of its charge: 100 for an exchange. Also what a cell becomes whose
 * charge is set. From then on loadMicroamps (whole, 0 or more) are drawn.
 */
export function newCell(atMs: number, leftPercent: number, loadMicroamps: number): CellState {
  if (!(leftPercent >= 0 && leftPercent <= 100)) throw new Error(`a cell cannot have ${leftPercent} % left`);
  return { atMs, chargeNc: chargeOf(10 * leftPercent), loadMicroamps };
}

/** From nowMs on loadMicroamps (whole, 0 or more) are drawn. Crossings planned with the old state must be planned again. */
export function setLoad(state: CellState, nowMs: number, loadMicroamps: number): CellState {
  return { atMs: nowMs, chargeNc: chargeAt(state, nowMs), loadMicroamps };
}

/** nC left at nowMs, 0..CAPACITY_NC. Throws for a time before the last change. */
export function chargeAt({ atMs, chargeNc, loadMicroamps }: CellState, nowMs: number): number {
  if (nowMs < atMs) throw new Error(`the cell was changed at ${atMs} ms, later than ${nowMs}`);
  return Math.max(0, chargeNc - (nowMs - atMs) * loadMicroamps);
}

/** mV at nowMs while loadMicroamps flow for a moment, whatever is drawn otherwise; see voltageOf. */
export function voltageMv(state: CellState, nowMs: number, loadMicroamps: number): number {
  return voltageOf(chargeAt(state, nowMs), loadMicroamps);
}
