// scenarios/README.md says nothing that the reader does not hold to.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { LOAD_MICROAMPS, newCell, voltageMv } from '../../sim/cell/cell.js';
import { THRESHOLD_MV } from '../../sim/cell/crossing.js';
import { ERASE_STEPS } from '../../sim/flash/geometry.js';
import { scenarioWords } from '../../src/cli/scenario/words.js';
import { cellLevel, holds, isPoor } from '../../src/port/cell.js';
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

/** The rows of the table below a heading, cells without their code marks. */
function tableBelow(heading: string): readonly (readonly string[])[] {
  const [, below = ''] = README.split(`\n### ${heading}\n`);
  const [section = ''] = below.split(/\n##/);
  const rows = section.split('\n').filter((line) => line.startsWith('| `'));
  return rows.map((row) =>
    row
      .slice(2, -2)
      .split(' | ')
      .map((cell) => cell.replaceAll('`', '')),
  );
}

describe('the tables of words', () => {
  const { refusals, counter, wearable } = scenarioWords();

  it.each([
    ['Screens', counter.screens, wearable.screens],
    ['Icons', counter.icons, wearable.icons],
  ])('%s: all that each device has, and nothing else', (heading, ofCounter, ofWearable) => {
    const rows = tableBelow(heading);
    const namesOf = (device: string) => rows.flatMap(([name, of]) => (of === 'both' || of === device ? [name] : []));
    expect(namesOf('counter').sort()).toEqual([...ofCounter].sort());
    expect(namesOf('wearable').sort()).toEqual([...ofWearable].sort());
    for (const row of rows)
      expect(row).toEqual([
        expect.anything(),
        expect.stringMatching(/^(both|counter|wearable)$/),
        expect.stringMatching(/\w/),
      ]);
  });

  it('Reasons: every reason to drop a frame, in the order of the list', () => {
    const rows = tableBelow('Reasons');
    expect(rows.map(([name]) => name)).toEqual(refusals);
    for (const row of rows) expect(row[1]).toMatch(/\w/);
  });
});

describe('what is said of a cell', () => {
  /** What a device with so much left makes of its cell after a minute at rest. */
  const shownAt = (percent: number) => {
    const cell = newCell(0, percent, LOAD_MICROAMPS.resting);
    const watch = { cellMv: voltageMv(cell, 60_000, LOAD_MICROAMPS.peak), asleep: false, looks: 0 };
    const dark = voltageMv(cell, 60_000, LOAD_MICROAMPS.resting) < THRESHOLD_MV.brownOut;
    return { low: cellLevel(watch.cellMv) < 2, sleeps: isPoor(watch), dark };
  };
  const percents = Array.from({ length: 101 }, (_, percent) => percent);
  const most = (what: 'low' | 'sleeps' | 'dark') => Math.max(...percents.filter((percent) => shownAt(percent)[what]));

  it('is what the cell does', () => {
    const wakes = percents.find((percent) => {
      return holds({ cellMv: voltageMv(newCell(0, percent, 0), 0, LOAD_MICROAMPS.peak), asleep: true, looks: 1 });
    });
    expect(README).toContain(
      `A cell of ${most('low')} % or less is shown as low. At ${most('sleeps')} % or less the device sleeps, ` +
        `and wakes at ${wakes} %; at ${most('dark')} % it is dark.`,
    );
    expect(README).toContain(`an erase as ${ERASE_STEPS} of them`);
  });
});
