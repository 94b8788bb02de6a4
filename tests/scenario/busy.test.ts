// Files made to keep the reader busy: the bounds of the language hold for each, and it ends soon.
import { describe, expect, it } from 'vitest';
import { readScenario } from '../../src/scenario/read.js';
import { scenarioText } from './reading.js';
import { WORDS } from './words.js';

/** The slowest takes about 1.5 s on the developers' machine; generous, because the machine may be busy. */
const LIMIT_MS = 30_000;
const SIZE = 1_000_000;

function many(count: number, piece: (index: number) => string): string {
  return Array.from({ length: count }, (_, index) => piece(index)).join(', ');
}

function dayOf(count: number, step: (index: number) => string): string {
  return `[${many(count, step)}]`;
}

const BURSTS = '{at: 07:00, work: breaker, by: Edda, bursts: 9500, of: 1ms, every: 1ms, as: a}';
const OFTEN = '{at: 07:00, cell: breaker, left: 8%, every: 1ms, until: 07:00:09}';
const FLOOD = '{at: 07:00, attack: [breaker, Edda], how: flood, frame every: 10ms, for: 1s, every: 1s, times: 900}';

/** What it is made of, the text, and what must be said of it. */
const REFUSED: readonly (readonly [string, string, string])[] = [
  ['brackets that close', `a: ${'['.repeat(SIZE / 2)}${']'.repeat(SIZE / 2 - 10)}`, 'this is nested too deeply'],
  [
    'maps in maps',
    Array.from({ length: 1000 }, (_, i) => `${' '.repeat(i)}a:`).join('\n'),
    'this is nested too deeply',
  ],
  ['brackets', '['.repeat(SIZE), 'this is nested too deeply'],
  ['braces', '{a: '.repeat(SIZE / 4), 'this is nested too deeply'],
  ['closing brackets', ']'.repeat(SIZE), 'this ] closes nothing'],
  ['dashes', '- '.repeat(SIZE / 2), 'this is nested too deeply'],
  ['question marks', '? '.repeat(SIZE / 2), 'this is nested too deeply'],
  ['commas', `[${','.repeat(SIZE)}`, 'the file holds too much'],
  ['quotes', '"'.repeat(SIZE), 'the file holds too much'],
  ['one line', 'a'.repeat(SIZE), 'here stands'],
  ['one line with a problem a word', '\u0001 '.repeat(SIZE / 2), 'there are more problems'],
  ['line ends', '\n'.repeat(SIZE), 'the file holds too much'],
  ['many keys', `{${many(60_000, (i) => `k${i}: 1`)}}`, 'the file holds too much'],
  [
    'aliases that explode',
    `a: &a [x]\n${Array.from({ length: 30 }, (_, i) => `b${i}: &b${i} [*a, *a, *a]`).join('\n')}`,
    'an alias "*a"',
  ],
  ['more steps than a day has', scenarioText({ day: dayOf(21_000, () => '{at: 07:00}') }), 'more than 20000 items'],
  ['unknown verbs', scenarioText({ day: dayOf(10_000, () => '{at: 07:00, clse: Edda}') }), 'there are more problems'],
  [
    'unknown names',
    scenarioText({ day: dayOf(8000, (i) => `{at: 07:00, close: Edda${i}}`) }),
    'there are more problems',
  ],
  [
    'unknown keys',
    scenarioText({ day: `[{at: 07:00, close: Edda, ${many(30_000, (i) => `k${i}: 1`)}}]` }),
    'there are more problems',
  ],
  [
    'a long list of names',
    scenarioText({ day: `[{at: 07:00, leave: [${many(50_000, (i) => `k${i}`)}]}]` }),
    'there are more problems',
  ],
  ['a long name', scenarioText({ day: `[{at: 07:00, close: ${'a'.repeat(SIZE - 500)}}]` }), 'this cannot be a name'],
  ['a long time', scenarioText({ day: `[{at: "${'1'.repeat(SIZE - 500)}:00", close: Edda}]` }), '1…" is no time'],
  ['a long key', scenarioText({ day: '[]', [`? ${'a'.repeat(SIZE - 500)}\n`]: 'b' }), 'a scenario has no'],
  [
    'lines that are indented less and less',
    `day:\n${Array.from({ length: 1000 }, (_, i) => `${' '.repeat(1001 - i)}- a`).join('\n')}`,
    'there are more problems',
  ],
  ['lines with two colons', `day:\n${'  - a: b: c\n'.repeat(20_000)}`, 'there are more problems'],
  ['a line of dashes', `day:\n  - a\n  ${'-'.repeat(SIZE)}`, 'a dash is missing before this'],
  ['rates without end', scenarioText({ day: dayOf(5000, () => OFTEN) }), 'more than 100000 events'],
  ['a flood', scenarioText({ day: dayOf(5000, () => FLOOD) }), 'more than 100000 frames'],
  ['bursts without end', scenarioText({ day: dayOf(5000, () => BURSTS) }), 'more than 100000 events'],
  [
    'what-ifs that multiply bursts',
    scenarioText({ day: dayOf(10, () => BURSTS), 'what-if': '{a: [], b: [], c: []}' }),
    'are too much',
  ],
  [
    'rows that multiply',
    scenarioText({
      day: `[{at: 07:00, tap: Edda, for: $x}, ${many(5000, () => '{at: 07:00, close: Edda}')}]`,
      rows: `[${many(200, (i) => `{x: ${i + 1}s}`)}]`,
    }),
    'times 200 rows',
  ],
  [
    'rows that differ',
    scenarioText({ rows: `[{${many(15_000, (i) => `a${i}: 1`)}}, {${many(15_000, (i) => `b${i}: 1`)}}]` }),
    'there are more problems',
  ],
  [
    'labels and notes that miss them',
    scenarioText({
      day: dayOf(8000, (i) => `{at: 07:00, close: Edda, as: l${i}}`),
      notes: `[${many(8000, (i) => `{at: l${i}x, say: x}`)}]`,
    }),
    'there are more problems',
  ],
];

const ACCEPTED: readonly (readonly [string, string])[] = [
  [
    'many notes and what-ifs',
    scenarioText({
      notes: `[${many(15_000, () => '{at: 07:00, say: x}')}]`,
      'what-if': `{${many(20, (i) => `w${i}: []`)}}`,
    }),
  ],
  [
    'many expectations on one line',
    scenarioText({ expect: `[${many(9000, () => '{never: alert, of: action, on: Bram}')}]` }),
  ],
  [
    'as many changes as there may be',
    scenarioText({
      day: `[${BURSTS}]`,
      'what-if': `{${many(20, (i) => `w${i}: [${many(10, () => '{shift: a, by: 1s}')}]`)}}`,
    }),
  ],
  [
    'as many rows as there may be',
    scenarioText({
      day: dayOf(240, () => '{at: 07:00, tap: Edda, for: $x}'),
      rows: `[${many(200, (i) => `{x: ${i + 1}s}`)}]`,
    }),
  ],
];

describe('a file made to keep the reader busy', () => {
  it.each(REFUSED)('is refused: %s', { timeout: LIMIT_MS }, (_, text, said) => {
    const reading = readScenario(text, 'busy.yaml', WORDS);
    const problems = reading.ok ? [] : reading.problems;
    expect(problems.map(({ message }) => message)).toContainEqual(expect.stringContaining(said));
    expect(problems.length).toBeLessThanOrEqual(101);
    for (const problem of problems) {
      expect(problem.place.line).toBeGreaterThan(0);
      expect(JSON.stringify(problem).length).toBeLessThan(2000);
    }
  });

  it.each(ACCEPTED)('is read: %s', { timeout: LIMIT_MS }, (_, text) => {
    expect(readScenario(text, 'busy.yaml', WORDS).ok).toBe(true);
  });
});
