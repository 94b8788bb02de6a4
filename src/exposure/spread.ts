// How the spread of magnitudes and times carries through to a day's exposure and points.
import type { Operation } from './daily.js';
import { nonNegative } from './non-negative.js';
import { pointsOf } from './points.js';

/** An operation with the relative spread of what it rests on: 0.2 is ± 20 %. */
export interface SpreadOperation extends Operation {
  readonly magnitudeSpread: number;
  readonly timeSpread: number;
}

/** Relative spread of a day's results: 0.2 is ± 20 %. */
export interface DaySpread {
  readonly exposure: number;
  readonly points: number;
}

/**
 * First-order spread of A(8) and of points, all inputs taken as independent of each other; points go with the square of
 * A(8), so theirs is twice as wide. JCGM 100:2008 (GUM), the law of propagation of uncertainty, derived.
 * Throws RangeError where a value is negative or no number, or where the day has no exposure to be relative to.
 */
export function firstOrderSpread(operations: readonly SpreadOperation[]): DaySpread {
  let points = 0;
  let variance = 0;
  for (const operation of operations) {
    const magnitudeSpread = nonNegative('The relative spread of a magnitude', operation.magnitudeSpread);
    const timeSpread = nonNegative('The relative spread of a time', operation.timeSpread);
    const part = pointsOf(operation);
    points += part;
    variance += part * part * (4 * magnitudeSpread * magnitudeSpread + timeSpread * timeSpread);
  }
  if (points === 0) {
    throw new RangeError('A relative spread needs a day with some exposure.');
  }
  const relative = Math.sqrt(variance) / points;
  return { exposure: relative / 2, points: relative };
}
