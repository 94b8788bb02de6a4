// scenarios/README.md says nothing that the reader does not hold to.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { scenarioWords } from '../../src/cli/scenario/words.js';
import { SUBJECTS } from '../../src/scenario/expect/subjects.js';
import { readScenario } from '../../src/scenario/read.js';
import { renderProblem } from '../../src/scenario/render.js';
import { TOP } from '../../src/scenario/top.js';
import { VERBS } from '../../src/scenario/verbs/verbs.js';
import { CHANGES } from '../../src/scenario/whatif/what-ifs.js';
import { readmeScenarios, yamlBlocks } from './readme.js';

const README = readFileSync(new URL('../../scenarios/README.md', import.meta.url), 'utf8');

describe('the examples of scenarios/README.md', () => {
  it.each(readmeScenarios(README).map((text, index) => [index + 1, text] as const))(
    'number %i is accepted',
    (_, text) => {
      const reading = readScenario(text, 'scenarios/README.md', scenarioWords());
      expect(reading.ok ? [] : reading.problems.map(renderProblem)).toEqual([]);
    },
  );

  it('use every key, verb, subject and change of the language', () => {
    const examples = yamlBlocks(README).join('\n');
    const words = [...Object.keys(TOP.shape), ...VERBS.keys(), ...SUBJECTS.keys(), ...CHANGES.keys()];
    const shown = (word: string): boolean =>
      new RegExp(`(?:^|[{\\s])${word}: `, 'm').test(`${examples} `) ||
      new RegExp(`(?:never|always): ${word},`).test(examples) ||
      new RegExp(`^${word}:$`, 'm').test(examples) ||
      README.includes(`\`${word}\``);
    expect(words.filter((word) => !shown(word))).toEqual([]);
  });

  it('show the error as it is told', () => {
    const told = /```text\n([\s\S]*?)\n```/.exec(README)?.[1] ?? '';
    const step = /\| (.*wrok.*)/.exec(told)?.[1] ?? '';
    const [whole = ''] = readmeScenarios(README);
    const lines = whole.split('\n');
    const text = [...lines.slice(0, 13), step, ...lines.slice(14)].join('\n');
    const reading = readScenario(text, 'lock.yaml', scenarioWords());
    expect(reading.ok ? [] : reading.problems.filter(({ kind }) => kind === 'unknown').map(renderProblem)[0]).toBe(
      told,
    );
  });
});
