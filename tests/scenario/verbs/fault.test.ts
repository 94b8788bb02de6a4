// Faults as a rate: one step, as many plain events.
import { describe, expect, it } from 'vitest';
import { FLASH } from '../../../src/port/flash.js';
import { MAX_BYTES } from '../../../src/scenario/verbs/cut.js';
import { PAGES } from '../../../src/scenario/verbs/flash.js';
import { eventsOf, messagesOf, read, scenarioText } from '../reading.js';

const MINUTE = 60_000;
/** 07:00 on a day that lasts from 06:50 until 16:00. */
const AT = 10 * MINUTE;

const FAULTS = [
  'cut: breaker, for: 20s',
  'sensor: breaker, fault: frozen, for: 20s',
  'air: [breaker, Edda], errors: 1/20, for: 20s',
  'attack: [breaker, Edda], how: forge, frame every: 2s, for: 20s',
  'exchange: breaker, for: 20s',
  'cell: breaker, left: 8%',
  'clock: breaker, off: 400ppm, for: 20s',
] as const;

describe('a fault', () => {
  it.each(FAULTS)('comes again so many times: %s', (step) => {
    const [once] = eventsOf(`{at: 07:00, ${step}}`);
    expect(eventsOf(`{at: 07:00, ${step}, every: 40m, times: 3}`)).toEqual(
      [AT, AT + 40 * MINUTE, AT + 80 * MINUTE].map((atMs) => ({ ...once, atMs })),
    );
  });

  it.each(FAULTS)('comes again until a time, which is not in it any more: %s', (step) => {
    const times = (until: string) => eventsOf(`{at: 07:00, ${step}, every: 40m, until: ${until}}`).length;
    expect(times('08:20')).toBe(2);
    expect(times('08:20:00.001')).toBe(3);
    expect(times('07:00:00.001')).toBe(1);
    expect(times('16:00')).toBe(14);
    expect(times('end')).toBe(14);
  });

  it('of the flash befalls one page after the other, and after the last the first', () => {
    const pages = eventsOf('{at: 07:00, flash: breaker, bad page: 14, every: 1h, times: 4}');
    expect(pages.map((event) => event.do === 'flash' && event.page)).toEqual([14, 15, 0, 1]);
  });

  it('keeps its label at every time', () => {
    const day = '[{at: 07:00, cut: breaker, for: 20s, every: 1h, times: 4, as: power}, {at: 08:30, close: Edda}]';
    const { runs, whatIfRuns } = read(scenarioText({ day, 'what-if': '{no faults: [{drop: power}]}' }));
    expect(runs[0]?.day.events.map((event) => event.do)).toEqual(['cut', 'cut', 'close', 'cut', 'cut']);
    expect(whatIfRuns[0]?.day.events.map((event) => event.do)).toEqual(['close']);
  });

  it('takes its rate from a row', () => {
    const day = '[{at: 07:00, cut: breaker, for: 20s, every: $every, times: $times}]';
    const { runs } = read(scenarioText({ day, rows: '[{every: 1h, times: 2}, {every: 5m, times: 60}]' }));
    expect(runs.map((run) => run.day.events.length)).toEqual([2, 60]);
  });

  it.each([
    ['cut: breaker, for: 20s, every: 40m', ['"every" does not say how often']],
    ['cut: breaker, for: 20s, times: 3', ['this goes with "every"']],
    ['cut: breaker, for: 20s, until: 15:00', ['this goes with "every"']],
    ['cut: breaker, for: 20s, every: 40m, until: 15:00, times: 3', ['"until" and "times" exclude each other']],
    ['cut: breaker, for: 20s, every: 10s, times: 3', ['"every" is shorter than "for"']],
    ['cut: breaker, for: 20s, every: 40m, times: 0', ['0 is not possible here']],
    ['cut: breaker, for: 20s, every: 40m, times: 10001', ['10001 is not possible here']],
    ['cut: breaker, for: 20s, every: 40m, times: 15', ['the last time lies outside the day']],
    ['cut: breaker, for: 20s, every: 40m, until: 07:00', ['this ends before it begins']],
    ['cut: breaker, for: 20s, every: 40m, until: 16:01', ['this lies outside the day']],
    ['cut: breaker, for: 20s, every: 40m, until: noon', ['"noon" is no time']],
    ['cut: breaker, for: 20s, every: 40m, until: 6:55', ['"6:55" is no time']],
    ['cell: breaker, left: 8%, every: 3ms, until: end', ['this comes more than 10000 times']],
    ['air: [breaker, Edda], loss: 1/2, every: 40m, times: 3', ['what comes again needs "for"']],
    ['cut: breaker, for: 20s, evry: 40m, times: 3', ['a "cut" step has no "evry" → every']],
    ['exchange: breaker, for: 2m, each: 40m', ['an "exchange" step has no "each"']],
    ['close: Edda, every: 40m, times: 3', ['a "close" step has no "every"', 'a "close" step has no "times"']],
  ])('%s is refused', (step, messages) => {
    expect(messagesOf({ day: `[{at: 07:00, ${step}}]` })).toEqual(messages);
  });

  it('of all times together is no more than a day may hold', () => {
    const often = '{at: 07:00, cell: breaker, left: 8%, every: 1ms, times: 9500}';
    const flood = '{at: 07:00, attack: [breaker, Edda], how: flood, frame every: 10ms, for: 1m, every: 5m, times: 17}';
    expect(messagesOf({ day: `[${Array.from({ length: 11 }, () => often)}]` })).toEqual([
      'the day has more than 100000 events',
    ]);
    expect(messagesOf({ day: `[${flood}]` })).toEqual(['attackers send more than 100000 frames']);
  });
});

it('takes for the bounds of a flash what src/port does', () => {
  expect([PAGES, MAX_BYTES]).toEqual([FLASH.pages, FLASH.pages * FLASH.pageBytes]);
});
