import { describe, expect, it } from 'vitest';
import { higherHand } from '../../src/exposure/hands.js';

describe('two hands', () => {
  // Directive 2002/44/EC, Annex A.2(b): the higher value counts, the other is reported too.
  it('lets the worse hand decide and reports the other', () => {
    expect(higherHand(4.2, 6.1)).toEqual({ deciding: 'right', higher: 6.1, lower: 4.2 });
    expect(higherHand(6.1, 4.2)).toEqual({ deciding: 'left', higher: 6.1, lower: 4.2 });
  });

  it('says so where both are equal', () => {
    expect(higherHand(5, 5)).toEqual({ deciding: 'both', higher: 5, lower: 5 });
  });

  it('says which hand is wrong', () => {
    expect(() => higherHand(Number.NaN, 1)).toThrow(/left hand/);
    expect(() => higherHand(1, -1)).toThrow(/right hand/);
  });
});
