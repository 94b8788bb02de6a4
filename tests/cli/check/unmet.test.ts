// counterproof check: faults that were planned and never came about are named, with the line of their step.
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { checkFiles } from '../../../src/cli/check/check-files.js';
import { outputOf } from '../../../src/cli/check/output.js';
import { textOf } from '../../../src/cli/check/text.js';
import { checkOutput } from '../../../src/cli/schemas/check.js';

/** Its steps begin at line 8. */
function checked(steps: readonly string[], rows = '') {
  const day = `title: Faults that wait
regime: eu-2002-44
from: 07:00
until: 09:00
tools: {breaker: {hand: percussive, magnitude: 12.0, keyed: 12.0}}
workers: {Edda: {}, Bram: {}}
day:
${steps.map((step) => `  - {${step}}\n`).join('')}expect: []
${rows}`;
  const file = join(mkdtempSync(join(tmpdir(), 'counterproof-')), 'day.yaml');
  writeFileSync(file, day);
  const files = [...checkFiles([file])];
  expect(files[0]!.problems).toEqual([]);
  const text = textOf(files[0]!);
  const notes = text.split('\n').filter((line) => line.startsWith('note '));
  return { text, notes: notes.map((note) => note.replace(`note           ${file}:`, '')), output: outputOf(files) };
}

const PAIR = 'at: 07:05, pair: breaker, with: Edda';
const WORK = 'at: 07:10, work: breaker, by: Edda, bursts: 20, of: 12s, every: 1m';

test('a cut that comes about is not named, nor is one at once', () => {
  const { notes, output } = checked([
    PAIR,
    'at: 07:09, cut: breaker, during: write, after: 100 bytes, for: 20s',
    WORK,
    'at: 07:40, cut: Edda, for: 20s',
  ]);
  expect(notes).toEqual([]);
  expect(output.files[0]!.runs[0]!.unmet).toEqual([]);
});

test('a cut within an erase that never comes, or so many bytes later, is named beside what holds', () => {
  const { text, notes, output } = checked([
    PAIR,
    'at: 07:09, cut: breaker, during: erase, for: 20s',
    WORK,
    'at: 07:20, cut: Edda, during: write, after: 60000 bytes, for: 20s',
  ]);
  expect(text).toMatch(/^holds /);
  expect(notes).toEqual(['9  1 fault planned here never came about', '11  1 fault planned here never came about']);
  const { unmet } = checkOutput.parse(JSON.parse(JSON.stringify(output))).files[0]!.runs[0]!;
  expect(unmet.map(({ what, place, atMs }) => [what, place.line, place.column, atMs])).toEqual([
    ['cut', 9, 5, 9 * 60_000],
    ['cut', 11, 5, 20 * 60_000],
  ]);
});

test('of two that wait for the same the later one comes about, and any loss of power ends what waits', () => {
  expect(
    checked([
      PAIR,
      'at: 07:08, cut: breaker, during: write, after: 60000 bytes, for: 20s',
      'at: 07:09, cut: breaker, during: write, for: 20s',
      WORK,
    ]).notes,
  ).toEqual(['9  1 fault planned here never came about']);
  expect(
    checked([PAIR, 'at: 07:08, cut: breaker, during: erase, for: 20s', 'at: 07:09, cut: breaker, for: 20s', WORK])
      .notes,
  ).toEqual(['9  1 fault planned here never came about']);
});

test('those of a rate and of all rows are counted together', () => {
  const { notes } = checked(
    [PAIR, WORK, 'at: 07:15, cut: breaker, during: write, after: $n, for: 20s, every: 30m, times: 3'],
    'rows: [{n: 0 bytes}, {n: 60000 bytes}]\n',
  );
  expect(notes).toHaveLength(1);
  expect(notes[0]).toMatch(/^10 {2}[3-5] of 6 faults planned here never came about$/);
});

test('an attack in the middle that meets no pairing of its two is named', () => {
  const middle = (at: string, worker: string) => `at: ${at}, attack: [breaker, ${worker}], how: middle, for: 5m`;
  expect(checked([middle('07:04', 'Edda'), PAIR, middle('07:30', 'Edda'), middle('07:03', 'Bram')]).notes).toEqual([
    '10  1 fault planned here met no pairing',
    '11  1 fault planned here met no pairing',
  ]);
});
