// Waves that are the same on every machine. No sine: its last bit may differ. A parabola a half turn, bent once, comes within
// 0.2 % of one, and what it has of harmonics a tool has more of.

/** Of all synthesised acceleration; whole samples a ms, so that times and positions never disagree. */
export const SAMPLES_PER_MS = 8;
export const RATE_HZ = 1000 * SAMPLES_PER_MS;

/** How far the bend goes, and what makes the crest 1 again: the parabola y becomes y + BEND · (y · |y| − y). */
const BEND = 0.225;

/** -1..1 over one turn, 0 at its beginning and its middle; turns: 0 up to 1. */
export function wave(turns: number): number {
  const half = turns < 0.5 ? turns : turns - 0.5;
  const parabola = 16 * half * (0.5 - half);
  const bent = parabola + BEND * (parabola * parabola - parabola);
  return turns < 0.5 ? bent : -bent;
}

/** A tone of a whole number of Hz at a sample from 0 on. */
export function tone(hz: number, sample: number): number {
  return wave(((sample * hz) % RATE_HZ) / RATE_HZ);
}

/** 0 up to 1 and smooth at both ends, for part below 0, between, and above 1. */
export function smoothStep(part: number): number {
  if (part <= 0) return 0;
  return part >= 1 ? 1 : part * part * (3 - 2 * part);
}
