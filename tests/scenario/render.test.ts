import { describe, expect, it } from 'vitest';
import { readScenarioFile } from '../../src/scenario/file.js';
import { renderProblem } from '../../src/scenario/render.js';
import { problemsOf, scenarioText } from './reading.js';
import { WORDS } from './words.js';

describe('renderProblem', () => {
  it('shows the place, the line with a caret, what was expected and the nearest word', () => {
    const [problem] = problemsOf(scenarioText({ day: '\n  - {at: 07:10, wrok: breaker, by: Edda}' }));
    expect(problem === undefined ? '' : renderProblem(problem)).toBe(
      [
        'lock.yaml:8:17  unknown verb "wrok"',
        '    8 |   - {at: 07:10, wrok: breaker, by: Edda}',
        '      |                 ^^^^',
        '  a step has one of these verbs: work, run, set, pair, press, turn, touch, tap, close, readout, carry, leave, ' +
          'return, air, sensor, cut, cell, exchange, clock, flash, attack; the nearest is "work"',
      ].join('\n'),
    );
  });

  it('shows no line where the file itself is the problem', () => {
    const reading = readScenarioFile('no-such-lock.yaml', WORDS);
    const [problem] = reading.ok ? [] : reading.problems;
    expect(problem === undefined ? '' : renderProblem(problem)).toBe(
      'no-such-lock.yaml  there is no such file\n  the path of a scenario file',
    );
  });
});
