// What YAML allows and the language refuses, and what would keep a reader busy.
import { describe, expect, it } from 'vitest';
import { problemsOf, readRun, scenarioText } from '../reading.js';

/** Every problem of a text as "line:column message". */
function told(text: string): readonly string[] {
  return problemsOf(text).map(({ place, message }) => `${place.line}:${place.column} ${message}`);
}

describe('hazards of YAML', () => {
  it.each([
    ['an anchor', 'title: &a x', '1:8 an anchor "&a"'],
    ['an alias', 'title: *a', '1:8 an alias "*a"'],
    ['a tag', 'title: !!str x', '1:8 a tag "!!str"'],
    ['a directive', '%YAML 1.1\n---\ntitle: x', '1:1 a directive "%YAML 1.1"'],
    ['a second document', 'title: x\n---\ntitle: y', '2:1 a second document begins'],
    ['an end of the document', 'title: x\n...\n', '2:1 an end of the document "..."'],
    ['a control character', 'title: a\u0007b', '1:9 the character U+0007 cannot stand here'],
    ['a byte order mark inside', 'title: a\ufeffb', '1:9 the character U+FEFF cannot stand here'],
    ['a carriage return alone', 'title: a\rb: c', '1:9 the character U+000D cannot stand here'],
    ['half a character', 'title: a\ud800b', '1:9 the character U+D800 cannot stand here'],
    ['a key twice', scenarioText({ workers: '{Edda: {}, Edda: {}}' }), '6:21 the key "Edda" stands here a second time'],
    ['a key that is no text', scenarioText({ workers: '{12: {}}' }), '6:11 "12" cannot be a key'],
    ['a key that is a list', scenarioText({ workers: '{[a]: {}}' }), '6:11 a list cannot be a key'],
    ['a merge', scenarioText({ workers: '{Edda: {<<: {}}}' }), '6:18 a worker has no "<<"'],
    ['nothing', '', '1:1 here stands nothing'],
    ['a list', '- a', '1:1 here stands a list'],
  ])('%s', (_, text, message) => {
    expect(told(text)).toContain(message);
  });

  it.each(['__proto__', 'constructor', 'toString', 'hasOwnProperty'])(
    '%s is a key like any other that is unknown',
    (key) => {
      expect(told(scenarioText({ [key]: '{polluted: 1}' }))).toEqual([`8:1 a scenario has no "${key}"`]);
      expect(told(scenarioText({ day: `[{at: 07:00, close: Edda, ${key}: 1}]` }))).toEqual([
        `7:32 a "close" step has no "${key}"`,
      ]);
      expect(told(scenarioText({ day: `[{at: 07:00, ${key}: Edda}]` }))).toEqual([`7:19 unknown verb "${key}"`]);
      expect(told(scenarioText({ expect: `[{never: ${key}, of: Edda}]` }))).toEqual([`8:18 unknown subject "${key}"`]);
      expect(told(scenarioText({ expect: `[{at: end, state: breaker, region: ${key}, is: x}]` }))).toEqual([
        `8:44 unknown region "${key}"`,
      ]);
      expect(({} as Record<string, unknown>).polluted).toBeUndefined();
    },
  );

  it('allows what is only another way to write the same', () => {
    const text = scenarioText({ day: '\n  - {at: 07:00, close: Edda}' });
    const { day } = readRun(text);
    expect(readRun(`\ufeff${text}`).day).toEqual(day);
    expect(readRun(text.replaceAll('\n', '\r\n')).day).toEqual(day);
    expect(readRun(`--- # the lock\n${text}`).day).toEqual(day);
    expect(readRun(text.replace('{at: 07:00, close: Edda}', 'at: "07:00"\n    close: Edda')).day).toEqual(day);
  });

  it.each([
    ['a bracket', '[{at: 07:00, close: Edda]', ['7:7 this { is not closed']],
    ['a bracket of two', '[{at: 07:00, leave: [Edda}]', ['7:26 this [ is not closed']],
    [
      'a bracket on the next line',
      '\n  - {at: 07:00, close: Edda\n  - {at: 07:01, close: Bram}',
      ['8:5 this { is not closed'],
    ],
    ['the last bracket', '[{at: 07:00, close: Edda}', ['7:6 this [ is not closed']],
    ['a quote', '[{at: 07:00, close: "Edda}]', ['7:26 this " is not closed']],
    ['a quote behind a backslash', '[{at: 07:00, close: "Edda\\"}]', ['7:26 this " is not closed']],
    ['a single quote', "[{at: 07:00, close: 'Edda''}]", ["7:26 this ' is not closed"]],
    ['one bracket too many', '[{at: 07:00, close: Edda}}]', ['7:31 this } closes nothing']],
  ])('says where %s is not closed', (_, day, messages) => {
    expect(told(scenarioText({ day })).toSorted()).toEqual([...messages].sort());
  });

  it.each(["'it''s'", '"a \\"b\\""', '"\\\\"', "''", '" } "'])('takes %s for closed', (say) => {
    const messages = told(scenarioText({ notes: `[{at: 07:00, say: ${say}}]` }));
    expect(messages.filter((message) => message.includes('closed'))).toEqual([]);
  });

  it('says where a tab indents', () => {
    const [problem] = problemsOf('day:\n\t- {at: 07:00}');
    expect(problem?.place.line).toBe(2);
    expect(problem?.kind).toBe('yaml');
  });

  it('tells of a file that is no YAML without guessing at its meaning', () => {
    const problems = problemsOf(scenarioText({ day: '[{at: 07:00, wrok: Edda]' }));
    expect(problems.length).toBeGreaterThan(0);
    expect(new Set(problems.map(({ kind }) => kind))).toEqual(new Set(['yaml']));
  });
});
