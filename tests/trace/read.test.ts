import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonicalLine } from '../../src/trace/canonical.js';
import type { TraceEvent } from '../../src/trace/kinds.js';
import { readTrace } from '../../src/trace/read.js';
import { arbitraryTrace } from './arbitrary-trace.js';
import { longDay } from './made-day.js';

function textOf(events: readonly TraceEvent[]): string {
  return events.map((event) => `${canonicalLine(event)}\n`).join('');
}

const DAY =
  '{"at":0,"by":"bench","cause":0,"fromMs":0,"kind":"hand.day","n":1,"regime":"eu-2002-44","seed":7,"untilMs":9}';
const WORKER =
  '{"at":0,"by":"Edda","cause":0,"kind":"hand.worker","levels":[{"compare":"reached","level":"action","points":100}],"n":2}';
const START = '{"at":5,"by":"Edda","cause":0,"held":true,"kind":"hand.start","n":3,"tool":"saw"}';
const SHOWN =
  '{"at":6,"by":"saw","cause":3,"icons":["running"],"kind":"shown.display","n":4,"screen":"ready","second":-1,"value":40}';
const LINES = [DAY, WORKER, START, SHOWN];

/** The text of the four lines with a piece of it replaced, each time that it stands there. */
function changed(from: string, to: string): string {
  const text = `${LINES.join('\n')}\n`;
  expect(text).toContain(from);
  return text.replaceAll(from, to);
}

const WRONG: readonly (readonly [what: string, text: string, line: number, message: string])[] = [
  ['no JSON', changed('{"at":5', '{at:5'), 3, 'The line is no event'],
  ['a line of nothing', changed(START, ''), 3, 'The line is no event'],
  ['a list', changed(WORKER, '[]'), 2, 'The line is no event'],
  ['null', changed(WORKER, 'null'), 2, 'The line is no event'],
  ['a byte order mark', `\ufeff${changed('Edda', 'Edda')}`, 1, 'The line is no event'],
  ['an unknown kind', changed('hand.start', 'hand.strat'), 3, '"hand.strat" is no kind of event.'],
  ['a kind that every object has', changed('hand.start', 'constructor'), 3, '"constructor" is no kind of event.'],
  ['no kind', changed('"kind":"hand.start",', ''), 3, 'nothing is no kind of event.'],
  ['a missing field', changed('"held":true,', ''), 3, 'The field "held" of hand.start is missing.'],
  ['a missing common field', changed('"by":"saw",', ''), 4, 'The field "by" of shown.display is missing.'],
  ['an unknown field', changed('"held"', '"hand":1,"held"'), 3, 'hand.start has no field "hand".'],
  [
    'a field that every object has',
    changed('"held"', '"__proto__":1,"held"'),
    3,
    'hand.start has no field "__proto__".',
  ],
  [
    'a text for a number',
    changed('"value":40', '"value":"40"'),
    4,
    '"value" of shown.display is "40", not a whole number.',
  ],
  ['a fraction', changed('"value":40', '"value":40.5'), 4, 'not a whole number'],
  ['a number that is not safe', changed('"value":40', '"value":9007199254740993'), 4, 'not a whole number'],
  ['a number for a text', changed('"tool":"saw"', '"tool":1'), 3, '"tool" of hand.start is 1, not a text.'],
  ['a number for a flag', changed('"held":true', '"held":1'), 3, '"held" of hand.start is 1, not true or false.'],
  ['a text for a list', changed('["running"]', '"running"'), 4, 'not a list of texts'],
  ['a list of numbers', changed('["running"]', '[1]'), 4, '"icons" of shown.display is [1], not a list of texts.'],
  ['a level of another sort', changed('"reached"', '"passed"'), 2, 'not a list of levels'],
  ['a level with more to it', changed('"points":100', '"points":100,"x":1'), 2, 'not a list of levels'],
  ['a level of a fraction', changed('"points":100', '"points":99.5'), 2, 'not a list of levels'],
  [
    'null for a level',
    changed('[{"compare":"reached","level":"action","points":100}]', '[null]'),
    2,
    'a list of levels',
  ],
  ['a number left out', changed('"n":3', '"n":4'), 3, 'Event 4 stands where event 3 belongs.'],
  ['time that goes back', changed('{"at":6', '{"at":4'), 4, 'Event 4 lies at 4 ms, before 5 ms.'],
  ['time before the start', changed('{"at":0,"by":"bench"', '{"at":-1,"by":"bench"'), 1, 'before 0 ms'],
  ['a cause that is no cause', changed('"cause":3', '"cause":4'), 4, 'Event 4 names event 4 as its cause'],
  ['a cause below nothing', changed('"cause":3', '"cause":-1'), 4, 'Event 4 names event -1 as its cause'],
  ['spaces', changed('"held":true', '"held": true'), 3, 'The line is not canonical'],
  ['a space at the end', changed(START, `${START} `), 3, 'The line is not canonical'],
  ['a carriage return', changed(START, `${START}\r`), 3, 'The line is not canonical'],
  ['keys out of order', changed('"n":3,"tool":"saw"', '"tool":"saw","n":3'), 3, 'The line is not canonical'],
  ['a key twice', changed('"held":true', '"held":false,"held":true'), 3, 'The line is not canonical'],
  ['another way to write a number', changed('"value":40', '"value":4e1'), 4, 'The line is not canonical'],
  ['another way to write a text', changed('"by":"saw"', '"by":"\\u0073aw"'), 4, 'The line is not canonical'],
  [
    'keys of a level out of order',
    changed('"level":"action","points":100', '"points":100,"level":"action"'),
    2,
    'canonical',
  ],
  ['a last line without an end', LINES.join('\n'), 4, 'The line is cut off'],
];

describe('readTrace', () => {
  it('gives the events back that were written', () => {
    fc.assert(
      fc.property(arbitraryTrace(), (events) => {
        expect(readTrace(textOf(events))).toEqual({ ok: true, events });
      }),
    );
    const events = longDay().events().slice(0, 5000);
    expect(readTrace(textOf(events))).toEqual({ ok: true, events });
  });

  it('takes the four lines that the cases below spoil, and no line at all', () => {
    expect(readTrace(`${LINES.join('\n')}\n`)).toMatchObject({ ok: true, events: { length: 4 } });
    expect(readTrace('')).toEqual({ ok: true, events: [] });
  });

  it.each(WRONG)('names the line that is wrong: %s', (_, text, line, message) => {
    const reading = readTrace(text);
    expect(reading).toMatchObject({ ok: false, problem: { line } });
    if (!reading.ok) expect(reading.problem.message).toContain(message);
  });

  it.each(['"a"', '"A1"', '"0g"', '" a1"', '"a1 "', '1', 'null', '["a1"]'])('takes %s for no bytes', (bytes) => {
    const line = (value: string) => `{"at":0,"by":"saw","bytes":${value},"cause":0,"kind":"shown.record","n":1}\n`;
    expect(readTrace(line('"00a1ff"')).ok).toBe(true);
    const message = expect.stringContaining(`"bytes" of shown.record is ${bytes}, not bytes in hexadecimal.`);
    expect(readTrace(line(bytes))).toMatchObject({ ok: false, problem: { line: 1, message } });
  });

  it('takes no text that was cut or changed in one place for another trace', () => {
    const text = textOf(longDay().events().slice(0, 60));
    fc.assert(
      fc.property(fc.nat(text.length - 1), fc.string({ unit: 'binary', maxLength: 2 }), (at, instead) => {
        const reading = readTrace(text.slice(0, at) + instead + text.slice(at + 1));
        if (reading.ok) expect(textOf(reading.events)).toBe(text.slice(0, at) + instead + text.slice(at + 1));
        else expect(reading.problem.line).toBeGreaterThan(0);
        if (text[at] !== '\n') expect(readTrace(text.slice(0, at)).ok).toBe(at === 0 || text[at - 1] === '\n');
      }),
      { numRuns: 300 },
    );
  });

  it('survives any text', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary' }), fc.json()), (text) => {
        expect(typeof readTrace(text).ok).toBe('boolean');
      }),
    );
    expect(readTrace(`${'['.repeat(200_000)}\n`)).toMatchObject({ ok: false, problem: { line: 1 } });
  });
});
