// Magnitude entry (MAG-1, MAG-2, MAG-3): what the ring's detents make of the value shown. Tenths of m/s², 0 is blank.
import { MAX_MAGNITUDE_TENTHS } from '../exposure/dose.js';
import { LEAST_MAGNITUDE_TENTHS } from '../link/sound.js';

const FIRST_FROM_BLANK_TENTHS = 50;
const COARSE_STEP_TENTHS = 5;
/** More detents than this within COARSE_SPAN_MS count as coarse ones. */
const FINE_DETENTS = 8;
const COARSE_SPAN_MS = 1000;

export interface Setting {
  tenths: number;
  /** Times of the latest detents, oldest first, at most FINE_DETENTS of them. */
  recentMs: number[];
}

/** The ring turned by so many detents (negative: anticlockwise) at nowMs. */
export function turnRing(setting: Setting, detents: number, nowMs: number): void {
  for (let made = 0; made < Math.abs(detents); made++) turnOne(setting, detents > 0, nowMs);
}

function turnOne(setting: Setting, clockwise: boolean, nowMs: number): void {
  const { recentMs } = setting;
  const coarse = recentMs.length === FINE_DETENTS && nowMs - recentMs[0]! < COARSE_SPAN_MS;
  if (recentMs.length === FINE_DETENTS) recentMs.shift();
  recentMs.push(nowMs);
  if (setting.tenths === 0) {
    setting.tenths = FIRST_FROM_BLANK_TENTHS;
    return;
  }
  const turned = coarse ? nextCoarse(setting.tenths, clockwise) : setting.tenths + (clockwise ? 1 : -1);
  setting.tenths = Math.min(MAX_MAGNITUDE_TENTHS, Math.max(LEAST_MAGNITUDE_TENTHS, turned));
}

/** Points that ten minutes at this magnitude make, rounded up: 2·a²/6 with a in m/s². */
export function pointsInTenMinutes(tenths: number): number {
  return Math.ceil((tenths * tenths) / 300);
}

function nextCoarse(tenths: number, clockwise: boolean): number {
  return clockwise
    ? (Math.floor(tenths / COARSE_STEP_TENTHS) + 1) * COARSE_STEP_TENTHS
    : (Math.ceil(tenths / COARSE_STEP_TENTHS) - 1) * COARSE_STEP_TENTHS;
}
