import { describe, expect, it } from 'vitest';
import { marksFor } from '../../../src/show/replay/marks.js';

describe('marksFor', () => {
  it('takes initials, and the next letter where one is taken', () => {
    expect(marksFor(['Edda', 'Bram', 'Ilse'])).toEqual(['E', 'B', 'I']);
    expect(marksFor(['Bram', 'Bela', 'Bo'])).toEqual(['B', 'E', 'O']);
    expect(marksFor(['Bo', 'bo', 'BO'])).toEqual(['B', 'O', '1']);
  });

  it('takes only what fills one column, and never the same twice', () => {
    expect(marksFor(['墨田', 'Élodie', '  '])).toEqual(['1', 'É', '2']);
    const many = marksFor(Array.from({ length: 30 }, () => 'Edda'));
    expect(new Set(many).size).toBe(30);
  });
});
