// Alert levels (WEA-2, ACC-3): which points of the shift call for the wearer, as data of the regime and the site.
import { U_PER_POINT } from '../exposure/dose.js';
import { ALERT_LEVELS, type AlertLevel } from '../link/messages.js';

export interface Level {
  readonly level: Exclude<AlertLevel, 'none'>;
  readonly points: number;
  /** Whether reaching the points is enough, or only exceeding them. */
  readonly compare: 'reached' | 'exceeded';
}

/** Levels in the order in which they are passed; of two at the same points the one that is enough reached comes first. */
export function inRisingOrder(levels: readonly Level[]): readonly Level[] {
  return [...levels].sort(
    (a, b) => leastDose(a) - leastDose(b) || ALERT_LEVELS.indexOf(a.level) - ALERT_LEVELS.indexOf(b.level),
  );
}

/** The least dose, in u, that has passed a level. Limits compare the exact dose, never the points shown. */
export function leastDose(level: Level): number {
  return level.points * U_PER_POINT + (level.compare === 'exceeded' ? 1 : 0);
}

/** Tenths of a point from a dose to a level, rounded down, never below 0. */
export function tenthsLeft(level: Level, dose: number): number {
  return Math.max(0, Math.floor((level.points * U_PER_POINT - dose) / (U_PER_POINT / 10)));
}
