// The magnitude to key into a counter, from what was measured on both hands: the higher hand, rounded up, with its uncertainty;
// or none, and why.
import { tenthsRoundedUp } from '../../exposure/tenths.js';
import type { Finding } from '../recording/recording.js';
import type { OperationValue } from './operation.js';

export const HANDS = ['left', 'right'] as const;
export type Hand = (typeof HANDS)[number];

export interface Recommendation {
  /** m/s², rounded up to 0.1 and never down (common practice). */
  readonly magnitude: number;
  /** Expanded, m/s², at about 95 %: of the measuring chain, and of the mean of the samples. */
  readonly uncertainty: number;
  /** The hand that it is of; null where the hands were not told apart. */
  readonly hand: Hand | null;
}

/** Student's factors for 95 % (two-sided) of the mean of 2 to 10 samples (tables, from memory); then 2, as for many. */
const STUDENT = [12.71, 4.3, 3.18, 2.78, 2.57, 2.45, 2.36, 2.31, 2.26];

function studentFactor(count: number): number {
  return STUDENT[count - 2] ?? 2;
}

/** What a counter can be set to (MAG-1), m/s². */
const LEAST_MAGNITUDE = 0.5;
const GREATEST_MAGNITUDE = 50;

export interface Sides {
  readonly hand: Hand | null;
  readonly value: OperationValue;
  /** Samples of this hand. */
  readonly count: number;
}

/**
 * sides: one where the hands are not told apart, else one a hand, none where nothing has a value: the higher counts (Directive 2002/44/EC, Annex A.2(b)). Null
 * where anything found, of recordings, samples or the sheet, doubts the value; the finding that is returned then says so.
 */
export function recommend(
  sides: readonly Sides[],
  chainUncertainty: number | null,
  found: readonly Finding[],
): Recommendation | Finding {
  const [first] = sides;
  if (first === undefined) return withheld('no setting is recommended: no recording has a value');
  const higher = sides.reduce((most, side) => (side.value.total > most.value.total ? side : most));
  const against = found.filter(({ weight }) => weight !== 'notes');
  if (against.length > 0 || chainUncertainty === null) {
    const why = against.map(({ what }) => what).filter((what, at, all) => all.indexOf(what) === at);
    return withheld(`no setting is recommended, because of: ${why.join(', ') || 'chain uncertainty unknown'}`);
  }
  const { total, variation } = higher.value;
  const magnitude = tenthsRoundedUp(total) / 10;
  if (!isSettable(magnitude)) {
    return withheld(
      `${magnitude} m/s² cannot be set: a counter takes ${LEAST_MAGNITUDE} to ${GREATEST_MAGNITUDE} m/s²`,
    );
  }
  const ofMean = (studentFactor(higher.count) * (variation ?? 0)) / Math.sqrt(higher.count);
  return { magnitude, uncertainty: total * Math.hypot(chainUncertainty, ofMean), hand: higher.hand };
}

/** Whether no setting is recommended. */
export function isFinding(setting: Recommendation | Finding): setting is Finding {
  return 'says' in setting;
}

/** MAG-1: whether a counter can be set to it, m/s². */
export function isSettable(magnitude: number): boolean {
  return magnitude >= LEAST_MAGNITUDE && magnitude <= GREATEST_MAGNITUDE;
}

function withheld(says: string): Finding {
  return { weight: 'notes', what: 'setting-withheld', says };
}
