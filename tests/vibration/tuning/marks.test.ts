import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readMarks } from '../../../src/vibration/tuning/marks.js';

const TWO = {
  marks: [
    { startS: 1.5, stopS: 9 },
    { startS: 10, stopS: 12.25 },
  ],
};

describe('readMarks', () => {
  it.each([
    ['CSV', 'startS,stopS\n1.5,9\n10,12.25\n'],
    ['CSV with decimal commas', '# breaker, lock wall\nstartS;stopS\r\n1,5;9\r\n10;12,25'],
    ['CSV with other columns', 'note\tstopS\tstartS\nfirst\t9\t1.5\n\nsecond\t12.25\t10\n'],
    ['JSON', '[{"startS": 1.5, "stopS": 9}, {"startS": 10, "stopS": 12.25}]'],
  ])('reads %s', (_, text) => {
    expect(readMarks(text)).toEqual(TWO);
  });

  it.each([
    ['start,stop\n1,2', 'marks are CSV with the header startS,stopS, or JSON such as [{"startS": 1.5, "stopS": 9}]'],
    ['startS,stopS\n1,2\n3,x', 'line 3 has no start and stop in seconds, such as 1.5 and 9'],
    ['startS,stopS\n# nothing', 'there is no mark: marks are CSV'],
    ['startS,stopS\n5,5', 'line 2 stops at 5 s, not after its start at 5 s'],
    ['startS,stopS\n1,5\n4,6', 'line 3 starts at 4 s, before the mark above it has stopped'],
    ['[{"startS": 1, "stopS": "2"}]', 'mark 1 has no start and stop in seconds'],
    ['[{"startS": -1, "stopS": 2}]', 'mark 1 has no start and stop in seconds'],
    ['[1, null]', 'mark 1 has no start and stop'],
    ['[{', 'this is no JSON'],
  ])('says what is wrong with %j', (text, problem) => {
    expect(readMarks(text)).toEqual({ problem: expect.stringContaining(problem) });
  });

  it('refuses what is too long or too much', () => {
    const many = Array.from({ length: 10_001 }, (_, at) => `${2 * at},${2 * at + 1}`);
    expect(readMarks(`startS,stopS\n${many.join('\n')}`)).toEqual({ problem: 'there are more than 10000 marks' });
    expect(readMarks(`startS,stopS\n${'#'.repeat(1_000_001)}`)).toHaveProperty('problem');
  });

  it('takes any text for marks in order, or says a sentence', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.json(), fc.stringMatching(/^startS,stopS\n[0-9.,;\n-]{0,40}$/)), (text) => {
        const read = readMarks(text);
        if ('problem' in read) expect(read.problem).not.toBe('');
        else
          for (const [at, { startS, stopS }] of read.marks.entries()) {
            expect(startS).toBeLessThan(stopS);
            expect(startS).toBeGreaterThanOrEqual(read.marks[at - 1]?.stopS ?? 0);
          }
      }),
    );
  });
});
