import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Answer, answerExposure } from '../../../src/cli/exposure/answer.js';
import { type ExposureOutput, exposureOutput } from '../../../src/cli/schemas/exposure.js';
import { REGIME_IDS } from '../../../src/exposure/regimes.js';

const EXAMPLE = ['4 m/s2 2h30m', '3 m/s2 1h', '20 m/s2 15m'];

function linesOf(answer: Answer): string[] {
  return ('answer' in answer ? answer.answer : answer.mistakes).split('\n');
}

/** The data as printed, which must fit the published schema to the letter. */
function dataOf(texts: readonly string[], regime = 'eu-2002-44'): ExposureOutput {
  const answer = answerExposure(texts, regime, true);
  return exposureOutput.parse(JSON.parse('answer' in answer ? answer.answer : 'null'));
}

describe('counterproof exposure', () => {
  it('answers the worked example of a day in sentences', () => {
    // EU Guide to good practice on hand-arm vibration (2006), worked example: from memory. 80 + 18 + 200 = 298 points,
    // A(8) 4.3 m/s², partials 2.2, 1.1, 3.5. The times left are (400 - 298) / (2 · a²) h, by hand.
    const lines = linesOf(answerExposure(EXAMPLE, 'eu-2002-44', false));
    expect(lines).toEqual([
      'The day comes to A(8) 4.32 m/s², 298.0 points, from 3 h 45 min of trigger time.',
      '',
      'Operation by operation:',
      '- 4.0 m/s² for 2 h 30 min makes A(8) 2.24 m/s², 80.0 points.',
      '- 3.0 m/s² for 1 h makes A(8) 1.06 m/s², 18.0 points.',
      '- 20.0 m/s² for 15 min makes A(8) 3.54 m/s², 200.0 points.',
      '',
      'Under eu-2002-44 (European Union, Directive 2002/44/EC):',
      '- Source: Directive 2002/44/EC, Articles 3 and 5 (clauses from memory).',
      '- The action value (A(8) 2.50 m/s², 100 points) is exceeded by 198.0 points.',
      '- The limit value (A(8) 5.00 m/s², 400 points) is not reached: 102.0 points left.',
      '',
      'Trigger time left after that, were only this tool used:',
      '- 4.0 m/s²: no time to the action value, 3 h 11 min to the limit value.',
      '- 3.0 m/s²: no time to the action value, 5 h 40 min to the limit value.',
      '- 20.0 m/s²: no time to the action value, 7 min 39 s to the limit value.',
      '',
      'Counterproof is no measuring instrument and proves no workplace safe. Below the action value there is still risk. ' +
        'Local law and its limit values rule.',
      '',
    ]);
  });

  it('gives the same as data', () => {
    const { operations, day, levels, timeLeft, dailyCap } = dataOf(EXAMPLE);
    expect(operations.map(({ points }) => points)).toEqual([80, 18, 200]);
    expect(operations.map(({ a8 }) => a8.toFixed(1))).toEqual(['2.2', '1.1', '3.5']);
    expect(day).toMatchObject({ points: 298, dose: 298 * 180_000_000, triggerMs: 225 * 60_000 });
    expect(levels.map(({ level, stands, passed }) => [level, stands, passed])).toEqual([
      ['action', 'above', true],
      ['limit', 'below', false],
    ]);
    expect(timeLeft[2]).toEqual({ magnitude: 20, toActionMs: 0, toLimitMs: 459_000, capped: false });
    expect(dailyCap).toBeNull();
  });

  it('tells exactly the action value apart under "reached" and "exceeded"', () => {
    expect(dataOf(['5 m/s2 2h'], 'gb-2005').levels[0]).toMatchObject({ stands: 'at', passed: true });
    expect(dataOf(['5 m/s2 2h'], 'eu-2002-44').levels[0]).toMatchObject({ stands: 'at', passed: false });
    expect(linesOf(answerExposure(['5 m/s2 2h'], 'gb-2005', false)).join()).toContain(
      'counts as soon as it is reached',
    );
    expect(linesOf(answerExposure(['5 m/s2 2h'], 'eu-2002-44', false)).join()).toContain('only when it is exceeded');
  });

  it('never shows a level as made or used up by rounding', () => {
    // 1 ms less, and 1 ms more, than the two hours that make 100 points at 5 m/s².
    const below = linesOf(answerExposure(['5 m/s2 1h59m59.999s'], 'gb-2005', false)).join('\n');
    expect(below).toContain('99.9 points, from');
    expect(below).toContain('is not reached: less than 0.1 points left.');
    expect(below).toContain('less than 1 s to the action value');
    const above = linesOf(answerExposure(['5 m/s2 2h0.001s'], 'gb-2005', false)).join('\n');
    expect(above).toContain('is exceeded by less than 0.1 points.');
  });

  it('holds the day to the cap of the Japanese notice', () => {
    // Notice 0710-2 of 10 July 2009; the cap from secondary sources: 8 m/s² 3.125 h, capped to 2 h.
    expect(dataOf(['8 m/s2 0s'], 'jp-0710-2').timeLeft[0]).toMatchObject({ toLimitMs: 7_200_000, capped: true });
    expect(dataOf(['20 m/s2 0s'], 'jp-0710-2').timeLeft[0]).toMatchObject({ toLimitMs: 1_800_000, capped: false });
    const lines = linesOf(answerExposure(['3 m/s2 90min', '8 m/s2 45min'], 'jp-0710-2', false));
    expect(lines).toContain('- The cap of 2 h of trigger time a day is exceeded by 15 min.');
    expect(lines).toContain('- 8.0 m/s²: no time to the action value, no time to the cap on the day.');
    expect(linesOf(answerExposure(['3 m/s2 90min'], 'jp-0710-2', false))).toContain(
      '- The cap of 2 h of trigger time a day leaves 30 min.',
    );
    // 3 m/s² would take 4 h 33 min to the action value: what the cap does not let come is not promised.
    expect(linesOf(answerExposure(['3 m/s2 1h'], 'jp-0710-2', false))).toContain(
      '- 3.0 m/s²: 1 h to the cap on the day.',
    );
  });

  it('lists each magnitude once in the time left, and says when that is more than a day', () => {
    expect(dataOf(['4 m/s2 1h', '4.0 m/s2 1h', '0.5 m/s2 1h']).timeLeft.map(({ magnitude }) => magnitude)).toEqual([
      4, 0.5,
    ]);
    expect(linesOf(answerExposure(['0.5 m/s2 1h'], 'eu-2002-44', false)).join()).toContain(
      'more than 24 h to the limit',
    );
  });

  it('fits its schema for any day under any regime, and adds up', () => {
    const operation = fc.tuple(fc.integer({ min: 1, max: 500 }), fc.integer({ min: 0, max: 3_600_000 }));
    fc.assert(
      fc.property(
        fc.array(operation, { minLength: 1, maxLength: 8 }),
        fc.constantFrom(...REGIME_IDS),
        (day, regime) => {
          const data = dataOf(
            day.map(([tenths, ms]) => `${tenths / 10} m/s2 ${ms / 1000}s`),
            regime,
          );
          expect(data.day.dose).toBe(day.reduce((sum, [tenths, ms]) => sum + tenths * tenths * ms, 0));
          const points = data.operations.reduce((sum, one) => sum + one.points, 0);
          expect(data.day.points).toBeCloseTo(points, 6);
          expect(16 * data.day.a8 ** 2).toBeCloseTo(points, 6);
        },
      ),
    );
  });

  it('tells of every mistake at once, each with a caret under its place', () => {
    const answer = answerExposure(['4 m/s2 2h', '20 ms2 15m', '5 m/s2 23h', '4 m/s2 2:30'], 'eu', false);
    expect(linesOf(answer)).toEqual([
      'counterproof exposure: there is no regime "eu"; known are eu-2002-44, gb-2005, jp-0710-2.',
      'counterproof exposure: operation 2 cannot be read at column 4.',
      '  20 ms2 15m',
      '     ^ expected the unit m/s2 or m/s², then a time, all in one pair of quotes: "20 m/s2 2h30m"',
      'counterproof exposure: operation 3 cannot be read at column 8.',
      '  5 m/s2 23h',
      '         ^ expected a shorter time: up to here the operations last more than the 24 h of a day',
      'counterproof exposure: operation 4 cannot be read at column 9.',
      '  4 m/s2 2:30',
      '          ^ expected h, min or s: a colon could part hours or minutes, so write 2h30m or 2m30s',
      '',
    ]);
  });

  it('lets a day last 24 h and not a millisecond more', () => {
    expect(answerExposure(['5 m/s2 12h', '3 m/s2 12h'], 'eu-2002-44', false)).toHaveProperty('answer');
    expect(answerExposure(['5 m/s2 12h', '3 m/s2 12h', '3 m/s2 0.001s'], 'eu-2002-44', false)).toHaveProperty(
      'mistakes',
    );
  });

  it('echoes nothing that would steer a terminal, and no more than fits a line', () => {
    const lines = linesOf(answerExposure(['5 \u001b[2J\n', `5 m/s2 ${'1'.repeat(1000)}`], '\u001b[31m', false));
    expect(lines.join('')).not.toContain('\u001b');
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThan(140);
    const caret = lines.find((line) => line.includes('at most 80 characters')) ?? '';
    expect(caret.indexOf('^')).toBeLessThan(80);
  });
});
