import { describe, expect, it } from 'vitest';
import { editDistance, nearestWord } from '../../src/scenario/nearest.js';

describe('editDistance', () => {
  it.each([
    ['', '', 0],
    ['work', 'work', 0],
    ['wrok', 'work', 1],
    ['wok', 'work', 1],
    ['worrk', 'work', 1],
    ['wark', 'work', 1],
    ['', 'air', 3],
    ['retrun', 'return', 1],
    ['kitten', 'sitting', 3],
  ])('of %j and %j is %i', (a, b, distance) => {
    expect(editDistance(a, b)).toBe(distance);
    expect(editDistance(b, a)).toBe(distance);
  });
});

describe('nearestWord', () => {
  const words = ['work', 'run', 'set', 'pair'];

  it('finds the word with the fewest letters to change', () => {
    expect(nearestWord('wrok', words)).toBe('work');
    expect(nearestWord('PAIR', words)).toBe('pair');
    expect(nearestWord('paire', words)).toBe('pair');
  });

  it('names nothing where nothing is near', () => {
    expect(nearestWord('lunch', words)).toBeNull();
    expect(nearestWord('xy', ['set'])).toBeNull();
    expect(nearestWord('set', [])).toBeNull();
  });

  it('does not compare words of any length', () => {
    const long = 'a'.repeat(100_000);
    expect(nearestWord(long, [`${long}b`])).toBeNull();
    expect(nearestWord('set', [long, 'sat'])).toBe('sat');
  });
});
