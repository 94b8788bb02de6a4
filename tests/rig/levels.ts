// Levels that a wearable under test watches, and dose as points.
import type { Level } from '../../src/wearable/levels.js';

/** Dose of one point, in u = (0.1 m/s²)²·ms: n = 2·a²·T with T in hours, so 3 600 000 · 100 / 2 (ISO 5349-1; the brief). */
export const POINT = 180_000_000;

export const LEVELS: readonly Level[] = [
  { level: 'notice', points: 80, compare: 'reached' },
  { level: 'action', points: 100, compare: 'reached' },
  { level: 'limit', points: 400, compare: 'exceeded' },
];
