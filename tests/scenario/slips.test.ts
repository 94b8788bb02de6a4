// What easily goes wrong when somebody writes a scenario by hand: the first thing that the reader says has the place of the
// slip, and tells how it is written instead.
import { describe, expect, it } from 'vitest';
import { problemsOf } from './reading.js';

const GOOD = `title: The breaker changes hands
covers: [PAI-3]
seed: 7
regime: eu-2002-44
from: 06:50
until: 16:00
tools:
  breaker: {hand: percussive, magnitude: 12.0}
  wall saw: {hand: rotary, magnitude: 4.6, keyed: 4.6}
workers:
  Edda: {}
  Bram: {site: 300}
day:
  # the morning
  - {at: 06:55, set: breaker, to: 12.0}
  - {at: 07:00, pair: breaker, with: Edda}
  - {at: 08:00, leave: Edda, for: 45m}
expect:
  - {at: 07:40, points: Edda, is: 19.2}
notes:
  - {at: 07:30, ask: Why?, say: Because.}
`;
const LEAVE = '  - {at: 08:00, leave: Edda, for: 45m}';
const WORK = 'at: 07:10, work: breaker, by: Edda, bursts: 20, of: 12s, every: 1m, as: morning cut';

/** In the place of which part of the text above what is written, and where and what is then said. */
type Slip = readonly [there: string, written: string, place: string, message: string, expected: string];

function first(text: string): readonly string[] {
  const [problem] = problemsOf(text);
  return problem === undefined
    ? []
    : [`${problem.place.line}:${problem.place.column}`, problem.message, problem.expected];
}

function says([there, written, place, message, expected]: Slip): void {
  expect(GOOD.split(there)).toHaveLength(2);
  expect(first(GOOD.replace(there, () => written))).toEqual([place, message, expect.stringContaining(expected)]);
}

it('finds nothing wrong with what the slips are made of', () => {
  expect(first(GOOD)).toEqual([]);
});

describe('a length of time', () => {
  it.each<Slip>([
    ['for: 45m', 'for: 45', '17:35', '"45" has no unit', '; perhaps 45s or 45m'],
    ['for: 45m', 'for: 45 m', '17:35', '"45 m" is no length of time', '; perhaps 45m'],
    ['for: 45m', 'for: 45min', '17:35', '"45min" is no length of time', '; perhaps 45m'],
    ['for: 45m', 'for: 90 Sec', '17:35', '"90 Sec" is no length of time', '; perhaps 1m30s'],
    ['for: 45m', 'for: 1.5h', '17:35', '"1.5h" is no length of time', '; perhaps 1h30m'],
    ['for: 45m', 'for: 30m1h', '17:35', '"30m1h" is no length of time', '; perhaps 1h30m'],
    ['for: 45m', 'for: 1h 30m', '17:35', '"1h 30m" is no length of time', '; perhaps 1h30m'],
    ['for: 45m', 'for: 2.0001s', '17:35', '"2.0001s" is no length of time', '1h30m or 250ms'],
    ['for: 45m', 'for: 2 lunches', '17:35', '"2 lunches" is no length of time', '1h30m or 250ms'],
    ['for: 45m', 'for: 00:45', '17:35', '"00:45" is no length of time', '12s, 5m, 1h30m or 250ms'],
    [LEAVE, '  - {at: 08:00, air: [breaker, Edda], delay: 200}', '17:46', '"200" has no unit', '; perhaps 200s'],
  ])('%s as %s', (...slip) => says(slip));
});

describe('a time of day', () => {
  it.each<Slip>([
    ['at: 08:00', 'at: 8:00', '17:10', '"8:00" is no time', '; perhaps 08:00'],
    ['at: 08:00', 'at: 08.00', '17:10', '"08.00" is no time', '; perhaps 08:00'],
    ['at: 08:00', 'at: 8h30', '17:10', '"8h30" is no time', '; perhaps 08:30'],
    ['at: 08:00', 'at: 3:00 pm', '17:10', '"3:00 pm" is no time', '; perhaps 15:00'],
    ['at: 08:00', 'at: 12:30 am', '17:10', '"12:30 am" is no time', '; perhaps 00:30'],
    ['at: 08:00', 'at: 08:00:00.5', '17:10', '"08:00:00.5" is no time', '; perhaps 08:00:00.500'],
    ['at: 08:00', 'at: Day2 08:00', '17:10', '"Day2 08:00" is no time', '; perhaps day 2 08:00'],
    ['at: 08:00', 'at: day 2 24:00', '17:10', '"day 2 24:00" is no time', '; perhaps day 3 00:00'],
    ['at: 08:00', 'at: day 9 08:00', '17:10', '"day 9 08:00" is no time', 'before it on a later day'],
    ['at: 08:00', 'at: 08:60', '17:10', '"08:60" is no time', 'HH:MM'],
    ['until: 16:00', 'until: 24:00', '6:8', '"24:00" is no time', '; perhaps 00:00'],
    ['at: 07:40', 'at: 07.40', '19:10', '"07.40" is no time', 'the label of a step; perhaps 07:40'],
    ['at: 07:30', 'at: 7:30', '21:10', '"7:30" is no time', 'the label of a step; perhaps 07:30'],
  ])('%s as %s', (...slip) => says(slip));
});

describe('a number', () => {
  it.each<Slip>([
    ['to: 12.0', 'to: 12,0', '15:35', 'there is a comma in "12,0"', 'a decimal has a point: 12.0'],
    ['magnitude: 4.6, ', 'magnitude: 4,6, ', '9:39', 'there is a comma in "4,6"', 'a decimal has a point: 4.6'],
    ['to: 12.0', 'to: 12.0 m/s²', '15:35', '"12.0 m/s²" is no number', ', without a unit: 12.0'],
    ['to: 12.0', 'to: "12.0"', '15:35', '"12.0" is no number', ', without quotes: 12.0'],
    [
      '  Bram: {site: 300}',
      '  Bram:\n    site: 2,5',
      '13:11',
      '"2,5" is no number',
      ', with a point and no comma: 2.5',
    ],
    ['to: 12.0', 'to: 12.05', '15:35', '12.05 is no magnitude that a counter can be set to', 'it is never rounded'],
    ['is: 19.2', 'is: 19.2 points', '19:35', '19.2 points is no amount', ', without a unit: 19.2'],
  ])('%s as %s', (...slip) => says(slip));

  it.each<Slip>([
    [LEAVE, '  - {at: 08:00, air: [breaker, Edda], loss: 50%}', '17:45', '"50%" is no ratio', '; perhaps 1/2'],
    [LEAVE, '  - {at: 08:00, air: [breaker, Edda], loss: 0.05}', '17:45', '"0.05" is no ratio', '; perhaps 1/20'],
    [LEAVE, '  - {at: 08:00, air: [breaker, Edda], loss: 1 in 20}', '17:45', '"1 in 20" is no ratio', '; perhaps 1/20'],
    [LEAVE, '  - {at: 08:00, air: [breaker, Edda], loss: 150%}', '17:45', '"150%" is no ratio', 'such as 1/2'],
    [LEAVE, '  - {at: 08:00, cell: Edda, left: 8}', '17:35', '"8" is no whole number of %', '; perhaps 8%'],
    [LEAVE, '  - {at: 08:00, clock: Edda, off: 9 PPM}', '17:35', '"9 PPM" is no whole number of ppm', '; perhaps 9ppm'],
    [LEAVE, '  - {at: 08:00, clock: Edda, off: 2%}', '17:35', '"2%" is no whole number of ppm', 'to 20000ppm'],
  ])('%s as %s', (...slip) => says(slip));
});

describe('the lines and signs of YAML', () => {
  it.each<Slip>([
    [LEAVE, ` ${LEAVE}`, '17:4', 'this line begins in column 4, where none above it does', 'column 1 or 3'],
    [LEAVE, LEAVE.slice(1), '17:2', 'this line begins in column 2, where none above it does', 'column 1 or 3'],
    ['  wall saw:', '    wall saw:', '9:5', 'this line begins in column 5, where none above it does', 'column 1 or 3'],
    ['  wall saw:', 'wall saw:', '9:1', 'a scenario has no "wall saw"', 'it has title, '],
    [LEAVE, LEAVE.replace('  -', '\t-'), '17:1', 'a tab indents this line', 'lines are indented with spaces'],
    ['  breaker:', '\tbreaker:', '8:1', 'a tab indents this line', 'lines are indented with spaces'],
    ['  breaker:', ' \tbreaker:', '8:2', 'a tab indents this line', 'lines are indented with spaces'],
    [
      LEAVE,
      `\u00a0${LEAVE.slice(1)}`,
      '17:1',
      'what indents this line looks like a space and is none',
      'ordinary spaces',
    ],
    [LEAVE, LEAVE.replace('- ', ''), '17:3', 'a dash is missing before this', '- {at: 08:00, leave: Edda'],
    [LEAVE, LEAVE.replace('- ', '-'), '17:3', 'a space is missing behind the dash', '- {at: 08:00, leave: Edda'],
    [LEAVE, LEAVE.replace('{', ''), '17:3', 'several keys on one line stand in braces', '- {at: 08:00, leave: Edda'],
    [LEAVE, `  - ${WORK}`, '17:3', 'several keys on one line stand in braces', '- {at: 07:10, work: breaker, by: Edda'],
    [LEAVE, LEAVE.replace('}', ''), '17:5', 'this { is not closed', 'a } behind what it holds'],
    ['say: Because.', 'say: Look at #3', '21:5', 'this { is not closed', 'what follows " #" is a comment'],
    ['for: 45m', 'for:45m', '17:30', 'a "leave" step has no "for:45m"', 'stand behind a key: "for: …"'],
    ['for: 45m', 'for：45m', '17:30', 'a "leave" step has no "for：45m"', 'stand behind a key: "for: …"'],
    ['seed: 7', 'seed:7', '3:1', 'a space is missing behind the colon', 'seed: 7'],
    ['seed: 7', 'seed 7', '3:1', 'this is no key with a value', 'a key, a colon, a space and a value'],
    ['leave: Edda, for', 'leave: Edda for', '17:24', 'a second colon in one value', 'a comma before the next key'],
    ['leave: Edda, for', 'leave: Edda,, for', '17:29', 'a comma too many', 'one comma'],
    ['title: The', 'title: Lock: the', '1:8', 'a second colon in one value', 'the text in quotes'],
    ['ask: Why?', 'ask: Why: how?', '21:22', 'a second colon in one value', 'the text in quotes'],
    ['ask: Why?', 'ask: "Why?', '21:22', 'this " is not closed', 'a second " behind the text'],
    [
      'ask: Why?',
      "ask: 'What's up?'",
      '21:28',
      'this stands behind the end of a value',
      'a quote inside of a text twice',
    ],
    ['say: Because.', 'say: Yes, because.', '21:38', 'a note has no "because."', 'with a comma in it stands in quotes'],
    ['say: Because.', 'say: @Edda', '21:33', 'a text without quotes cannot begin with @', 'in quotes: "@Edda"'],
    ['say: Because.', 'say: "\\d"', '21:34', 'Invalid escape sequence \\d', 'a backslash twice'],
    ['for: 45m}', 'for: 45m}# tea', '17:39', 'a space is missing before the #', 'a comment behind a space'],
    ['for: 45m', 'for: 45m, for: 5m', '17:40', 'the key "for" stands here a second time', 'each key once'],
    ['seed: 7', 'seed: 7\nfrom: 07:00', '6:1', 'the key "from" stands here a second time', 'each key once'],
    [
      LEAVE,
      '  - at: 08:00\n      close: Edda',
      '17:9',
      'this is a value, and keys follow as if it were none',
      'indented',
    ],
    [LEAVE, `<<<<<<< HEAD\n${LEAVE}`, '17:1', 'a merge is not finished here', 'one of the two versions'],
    ['covers: [PAI-3]', 'covers: PAI-3, KEP-1', '2:9', 'unknown requirement "PAI-3, KEP-1"', '[PAI-3, KEP-1]'],
    ['leave: Edda', 'leave: ', '17:24', 'here stands nothing', "a tool's or a worker's name"],
  ])('%s as %j', (...slip) => says(slip));

  it('are told of once where one slip spoils the lines below it', () => {
    for (const text of [GOOD.replace('  breaker:', '\tbreaker:'), GOOD.replace(LEAVE, `=======\n${LEAVE}`)]) {
      expect(problemsOf(text)).toHaveLength(1);
    }
  });
});
