import { describe, expect, it } from 'vitest';
import { messagesOf, problemsOf, read, scenarioText } from './reading.js';

const AWAY = '[{at: 08:00, leave: Edda, for: $away}]';

describe('rows', () => {
  it('make one run each, with every parameter replaced', () => {
    const { runs } = read(
      scenarioText({
        from: '$start',
        seed: '$chance',
        day: '[{at: 08:00, leave: [$who, breaker], for: 5m}]',
        expect: '[{at: end, points: $who, between: [$low, 20]}]',
        notes: '[{at: 08:00, say: $words}]',
        rows: '[{start: 06:00, chance: 3, who: Edda, low: 19.1, words: She goes}, {start: 07:00, chance: 4, who: Bram, low: 0, words: He goes}]',
      }),
    );
    expect(runs.map(({ row }) => row)).toEqual([
      'start=06:00 chance=3 who=Edda low=19.1 words="She goes"',
      'start=07:00 chance=4 who=Bram low=0 words="He goes"',
    ]);
    const [first, second] = runs;
    expect(first?.day).toMatchObject({ fromMs: 21_600_000, seed: 3, events: [{ who: ['Edda', 'breaker'] }] });
    expect(second?.day).toMatchObject({ fromMs: 25_200_000, seed: 4, events: [{ who: ['Bram', 'breaker'] }] });
    expect(second?.expectations[0]?.text).toBe('{at: end, points: Bram, between: [0, 20]}');
    expect(second?.notes).toEqual([{ atMs: 3_600_000, ask: null, say: 'He goes' }]);
  });

  it('are one without a label where a file has none', () => {
    expect(read(scenarioText()).runs.map(({ row }) => row)).toEqual(['']);
  });

  it.each([
    ['no rows', { day: AWAY }, ['unknown parameter "$away"']],
    [
      'a misspelt parameter',
      { day: AWAY, rows: '[{awy: 5m}]' },
      ['unknown parameter "$away" → awy', 'nothing uses $awy'],
    ],
    ['an unused one', { day: AWAY, rows: '[{away: 5m, loss: 0/1}]' }, ['nothing uses $loss']],
    [
      'rows that differ',
      { day: AWAY, rows: '[{away: 5m}, {awy: 6m}]' },
      ['this row lacks away', 'the first row has no "awy" → away'],
    ],
    ['a row twice', { day: AWAY, rows: '[{away: 5m}, {away: 5m}]' }, ['this row stands here twice']],
    ['an empty row', { rows: '[{}]' }, ['this row has no parameter']],
    ['an empty list', { rows: '[]' }, ['there is no row']],
    ['a list as a value', { day: AWAY, rows: '[{away: [5m]}]' }, ['here stands a list']],
    ['a parameter as a value', { day: AWAY, rows: '[{away: $away}]' }, ['here stands "$away"']],
    ['a strange name', { rows: '[{"1": 5m}]' }, ['"1" cannot be the name of a parameter']],
    ['a title with one', { title: '$away', day: AWAY, rows: '[{away: 5m}]' }, ['a title has no parameter']],
  ])('%s is told of', (_, parts, messages) => {
    expect(messagesOf(parts).toSorted()).toEqual([...messages].sort());
  });

  it('show the row where a value put in is wrong', () => {
    const [problem, ...others] = problemsOf(scenarioText({ day: AWAY, rows: '[{away: 5m}, {away: soon}]' }));
    expect(problem?.message).toBe('"soon" is no length of time (put in for $away)');
    expect(problem?.excerpt?.text.slice((problem.excerpt.column ?? 0) - 1)).toBe('soon}]');
    expect(others).toEqual([]);
  });

  it('stand for a whole value, and say so of one that is a part', () => {
    const day = '[{at: 08:00, cut: breaker, during: write, after: $n bytes, for: 5s}]';
    const [problem, ...others] = problemsOf(scenarioText({ day, rows: '[{n: 0}, {n: 7}]' }));
    expect(problem?.message).toBe('"$n bytes" has more than a parameter');
    expect(problem?.expected).toBe('a parameter stands for the whole value: write $n, and in the rows n: 0 bytes');
    expect(others).toEqual([]);
    const unknown = problemsOf(scenarioText({ day: '[{at: 08:00, leave: Edda, for: $away/2}]' }));
    expect(unknown.map(({ expected }) => expected)).toEqual(['a parameter stands for the whole value: write $away']);
    expect(read(scenarioText({ day: day.replace(' bytes', ''), rows: '[{n: 0 bytes}]' })).runs).toHaveLength(1);
  });

  it('leave a text in quotes alone', () => {
    const notes = '[{at: 08:00, say: "$5 a day"}, {at: 08:01, say: "$away"}]';
    const { runs } = read(scenarioText({ day: AWAY, notes, rows: '[{away: 5m}]' }));
    expect(runs[0]?.notes.map(({ say }) => say)).toEqual(['$5 a day', '$away']);
  });
});
