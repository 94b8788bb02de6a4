// Two hands on one tool: the worse hand decides, the other is reported too.
import { nonNegative } from './non-negative.js';

export interface BothHands {
  /** "both" where the two are equal. */
  readonly deciding: 'left' | 'right' | 'both';
  /** The value that counts, in the unit of what was given. */
  readonly higher: number;
  /** The value that is only reported. */
  readonly lower: number;
}

/**
 * The higher of the two hands' values (magnitudes or A(8), both in m/s², at least 0).
 * Directive 2002/44/EC, Annex A.2(b). Throws RangeError where one is negative or no number.
 */
export function higherHand(left: number, right: number): BothHands {
  nonNegative("The left hand's value in m/s²", left);
  nonNegative("The right hand's value in m/s²", right);
  if (left === right) {
    return { deciding: 'both', higher: left, lower: right };
  }
  return left > right
    ? { deciding: 'left', higher: left, lower: right }
    : { deciding: 'right', higher: right, lower: left };
}
