// Every expectation of every shipped scenario can fail: moved numbers and times, swapped names and words make it false, and
// `counterproof check` then exits with 1 and names that very expectation.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test, vi } from 'vitest';
import { falsify, type Place } from './falsify/falsify.js';
import { SPARE_TOOL, SPARE_WORKER, withExpectation } from './falsify/stage.js';
import { flow, listOf } from './falsify/tree.js';
import { counterproof, HANGS_AFTER_MS } from './process.js';
import { SHIPPED } from './shipped.js';

vi.setConfig({ testTimeout: 2 * HANGS_AFTER_MS });

/** Edda drills for 40 s at 9.0 m/s²: 40 × 81 / 1800 = 1.8 points. */
const WEAK = `title: A hole
regime: eu-2002-44
from: 07:00
until: 08:00
tools:
  drill: {hand: impact, magnitude: 9.0, keyed: 9.0}
workers:
  Edda: {}
  Bram: {}
day:
  - {at: 07:00, pair: drill, with: Edda}
  - {at: 07:10, run: drill, by: Edda, for: 40s}
expect:
  - EXPECTATION
`;

const folder = mkdtempSync(join(tmpdir(), 'falsify-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** By name of the scenario. */
const places = new Map<string, readonly Place[]>();

describe.each(SHIPPED)('$name', (shipped) => {
  test('has no number, time, name or word that could be another one', () => {
    const found = falsify(shipped, folder);
    places.set(shipped.name, found);
    const missed = found.filter(({ outcome }) => outcome === 'missed');
    expect(missed.map(({ leaf, expectation }) => `${leaf.sort} ${leaf.path.join('/')} of ${expectation}`)).toEqual([]);
  });
});

describe('a weak expectation is found out', () => {
  const weak = (expectation: string) => {
    const text = WEAK.replace('EXPECTATION', expectation);
    const missed = falsify({ name: 'weak.yaml', path: '', text }, folder).filter(({ outcome }) => outcome === 'missed');
    return missed.map(({ leaf }) => leaf.path.join('/'));
  };

  test.each([
    ['a bound far from what is seen', '{at: end, points: Edda, at most: 20}', ['at most', 'at', 'points']],
    [
      'a range wider than need be',
      '{at: end, points: Edda, between: [0, 20]}',
      ['between/0', 'between/1', 'at', 'points'],
    ],
    ['a time at which nothing changes', '{at: end, points: Bram, is: 0}', ['at']],
    ['a length of time for what is so at once', '{within: 5m, after: 07:20, points: Edda, is: 1.8}', ['within']],
    ['a name where another has the same', '{always: unclaimed dose, of: drill, is: 0}', ['of']],
  ])('%s', (_, expectation, places) => {
    expect(weak(expectation).sort()).toEqual([...places].sort());
  });

  test('and a strict one is not', () => {
    expect(weak('{at: end, points: Edda, is: 1.8}')).toEqual([]);
  });

  test('one that does not hold is no shipped one', () => {
    expect(() => weak('{at: end, points: Edda, is: 1.9}')).toThrow('this does not hold');
  });
});

test('the command exits with 1 and names each expectation that was made false', () => {
  const files = SHIPPED.map(({ name, text }) => {
    const { index, line } = firstFalse(name, text);
    const path = join(folder, `one-${name}`);
    const changed = withExpectation(text, index, line);
    writeFileSync(path, changed);
    return { path, line, row: changed.slice(0, changed.indexOf(line)).split('\n').length };
  });
  const { code, out } = counterproof(['check', ...files.map(({ path }) => path)]);
  expect(code).toBe(1);
  for (const { path, line, row } of files) {
    // In a file with rows the heading ends with the name of the row.
    const [, ending = ''] = out.split(`${path}:${row}:5: does not hold`);
    const [, excerpt = ''] = ending.split('\n');
    expect(excerpt.slice(0, excerpt.indexOf(line) + line.length)).toBe(`  ${row} |   - ${line}`);
    expect(out.split(`${path}:${row}:`).length).toBe(out.split(`${path}:`).length);
  }
  expect(counterproof(['check', SHIPPED[0]!.path]).code).toBe(0);
});

/** An expectation of a scenario and the first line that makes it false without the spare tool and worker. */
function firstFalse(name: string, text: string): { index: number; line: string } {
  const isPlain = (line: string) => !line.includes(SPARE_TOOL) && !line.includes(SPARE_WORKER);
  for (const { expectation, falseMoves } of places.get(name) ?? []) {
    const line = falseMoves.find(isPlain);
    const index = listOf(text, 'expect').findIndex((tree) => flow(tree) === expectation);
    if (line !== undefined) return { index, line };
  }
  throw new Error(`nothing in ${name} was found false`);
}

test('moves in numbers', () => {
  const all = [...places.values()].flat();
  const rows = [...new Set(all.map(({ leaf }) => leaf.sort))].map((sort) => [sort, ...countsOf(all, sort)]);
  const heads = ['', 'places', 'decisive', 'contrast', 'missed', 'moves', 'caught'];
  const table = [heads, ...rows, ['all', ...countsOf(all)]];
  const line = ([head, ...cells]: (string | number)[]) =>
    `${head}`.padEnd(12) + cells.map((cell) => `${cell}`.padStart(9)).join('');
  process.stdout.write(`Expectations made false, in ${SHIPPED.length} scenarios:\n${table.map(line).join('\n')}\n`);
  expect(all.length).toBeGreaterThan(1000);
});

function countsOf(all: readonly Place[], sort?: string): readonly number[] {
  const own = all.filter(({ leaf }) => sort === undefined || leaf.sort === sort);
  const outcomes = ['decisive', 'in contrast', 'missed'].map(
    (word) => own.filter(({ outcome }) => outcome === word).length,
  );
  const moves = own.reduce((sum, place) => sum + place.moves, 0);
  const caught = own.reduce((sum, place) => sum + place.falseMoves.length, 0);
  return [own.length, ...outcomes, moves, caught];
}
