// Whatever the text, the reader gives a scenario or problems that have a place in it: it never throws, and never hangs.
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readScenario } from '../../src/scenario/read.js';
import { renderProblem } from '../../src/scenario/render.js';
import { readmeScenarios } from './readme.js';
import { WORDS } from './words.js';

const GOOD = readmeScenarios(readFileSync(new URL('../../scenarios/README.md', import.meta.url), 'utf8'));
const PIECES = [
  '{',
  '}',
  '[',
  ']',
  ':',
  ': ',
  ',',
  ', ',
  '- ',
  '\n',
  '\n  ',
  '\t',
  '"',
  "'",
  '#',
  ' #',
  '&a ',
  '*a',
  '!t ',
  '? ',
  '|',
  '>',
  '%',
  '@',
  '`',
  '~',
  '---\n',
  '...\n',
  '$',
  '$x',
  '0',
  '-1',
  '1e9',
  '.5',
  '12.05',
  'end',
  '__proto__',
  'null',
  '\u0000',
  '\u2028',
  '\ufeff',
  '\ud800',
  '🪨',
  '<<: ',
  'at: ',
  'work: ',
  'never: ',
  'rows: ',
  'what-if: ',
  'day 2 06:00',
  '00:00',
  '99:99',
  '0s',
  '1/0',
  '8%',
  '5 bytes',
  '-400ppm',
  ', every: ',
  ', times: ',
  ', until: ',
  'cut: ',
  'attack: ',
  '\u00a0',
  '\n=======\n',
];

/** One change of a text: a piece put in, a stretch cut out, doubled, or moved to another place; all by fractions. */
interface Change {
  readonly how: 'insert' | 'cut' | 'double' | 'move';
  readonly at: number;
  readonly to: number;
  readonly length: number;
  readonly piece: string;
}

const fraction = fc.double({ min: 0, max: 1, noNaN: true });
const change: fc.Arbitrary<Change> = fc.record({
  how: fc.constantFrom('insert', 'cut', 'double', 'move'),
  at: fraction,
  to: fraction,
  length: fc.integer({ min: 1, max: 40 }),
  piece: fc.oneof(fc.constantFrom(...PIECES), fc.string({ unit: 'binary', maxLength: 8 })),
});

function changed(text: string, { how, at, to, length, piece }: Change): string {
  const start = Math.floor(at * text.length);
  const target = Math.floor(to * text.length);
  const stretch = text.slice(start, start + length);
  const without = text.slice(0, start) + text.slice(start + length);
  switch (how) {
    case 'insert':
      return text.slice(0, start) + piece + text.slice(start);
    case 'cut':
      return without;
    case 'double':
      return text.slice(0, start) + stretch + text.slice(start);
    case 'move':
      return without.slice(0, target) + stretch + without.slice(target);
  }
}

function holdsFor(text: string): 'good' | 'refused' {
  const reading = readScenario(text, 'x.yaml', WORDS);
  if (reading.ok) {
    expect(reading.scenario.runs.length).toBeGreaterThan(0);
    for (const { day } of [...reading.scenario.runs, ...reading.scenario.whatIfRuns]) {
      for (const { atMs } of day.events) expect(atMs >= 0 && atMs < day.untilMs).toBe(true);
    }
    return 'good';
  }
  expect(reading.problems.length).toBeGreaterThan(0);
  const lines = text.replace(/^\ufeff/, '').split('\n');
  for (const problem of reading.problems) {
    const { place, message, excerpt } = problem;
    expect(message).not.toBe('');
    expect(place.line).toBeGreaterThanOrEqual(1);
    expect(place.line).toBeLessThanOrEqual(lines.length);
    expect(place.column).toBeGreaterThanOrEqual(1);
    expect(place.column).toBeLessThanOrEqual((lines[place.line - 1] ?? '').length + 1);
    expect(excerpt).not.toBeNull();
    expect(renderProblem(problem)).not.toMatch(/[^\P{C}\n]/u);
  }
  return 'refused';
}

describe('the reader', () => {
  it('holds for good files that were changed in places', () => {
    const outcomes = { good: 0, refused: 0 };
    const texts = fc.tuple(fc.constantFrom(...GOOD), fc.array(change, { minLength: 1, maxLength: 4 }));
    fc.assert(
      fc.property(texts, ([text, changes]) => {
        outcomes[holdsFor(changes.reduce(changed, text))] += 1;
      }),
      { numRuns: 1500 },
    );
    expect(outcomes.good).toBeGreaterThan(20);
    expect(outcomes.refused).toBeGreaterThan(1000);
  }, 60_000);

  it('holds for any text', () => {
    const pieces = fc.array(fc.constantFrom(...PIECES), { maxLength: 40 }).map((some) => some.join(''));
    fc.assert(
      fc.property(fc.oneof(pieces, fc.string({ unit: 'binary', maxLength: 200 })), (text) => {
        holdsFor(text);
      }),
      { numRuns: 1000 },
    );
  }, 60_000);
});
