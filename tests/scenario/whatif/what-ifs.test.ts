import { describe, expect, it } from 'vitest';
import type { Day } from '../../../src/scenario/day.js';
import { messagesOf, read, scenarioText } from '../reading.js';

const DAY = `[
  {at: 06:55, set: breaker, to: 12.0, as: morning},
  {at: 06:56, set: breaker, to: 4.2},
  {at: 07:00, pair: breaker, with: Edda, as: morning},
  {at: 07:10, work: breaker, by: Edda, bursts: 2, of: 12s, every: 1m, as: morning},
  {at: 09:00, tap: Edda, for: 1s, as: tea},
  {at: 12:00, leave: Edda, for: 5m, as: lunch},
  {at: 13:00, cut: Edda, for: 5s, as: faults},
  {at: 13:01, cell: breaker, left: 8%, as: faults}]`;

const TOOLS = `{
  breaker: {hand: percussive, magnitude: 12.0, keyed: 12.0},
  drill: {hand: impact, magnitude: 7.5, keyed: 8.0}}`;

function dayWith(changes: string): Day {
  const { whatIfRuns } = read(scenarioText({ tools: TOOLS, day: DAY, 'what-if': `{other: ${changes}}` }));
  const [run] = whatIfRuns;
  if (run === undefined) throw new Error('a what-if makes a run');
  return run.day;
}

const AS_WRITTEN = dayWith('[]');

describe('a what-if', () => {
  it('is beside the day as written, for each row', () => {
    const parts = { tools: TOOLS, day: DAY.replace('07:10', '$start'), rows: '[{start: 07:10}, {start: 07:20}]' };
    const whatIf = '{lighter: [{magnitude: breaker, to: 8.0}], no lunch: [{drop: lunch}]}';
    const { runs, whatIfs, whatIfRuns } = read(scenarioText({ ...parts, 'what-if': whatIf }));
    expect(whatIfs).toEqual(['lighter', 'no lunch']);
    expect(runs.map(({ row, whatIf: name }) => [row, name])).toEqual([
      ['start=07:10', null],
      ['start=07:20', null],
    ]);
    expect(whatIfRuns.map(({ row, whatIf: name }) => [row, name])).toEqual([
      ['start=07:10', 'lighter'],
      ['start=07:10', 'no lunch'],
      ['start=07:20', 'lighter'],
      ['start=07:20', 'no lunch'],
    ]);
    expect(whatIfRuns[3]?.day.events).toEqual(runs[1]?.day.events.filter((event) => event.do !== 'leave'));
  });

  it('of a magnitude changes it wherever the counter was told the truth', () => {
    const day = dayWith('[{magnitude: breaker, to: 8.0}]');
    expect(day.tools[0]).toMatchObject({ magnitudeTenths: 80, keyedTenths: 80 });
    expect(day.tools[1]).toEqual(AS_WRITTEN.tools[1]);
    expect(day.events.flatMap((event) => (event.do === 'set' ? [event.toTenths] : []))).toEqual([80, 42]);
    expect(dayWith('[{magnitude: drill, to: 5.0}]').tools[1]).toMatchObject({ magnitudeTenths: 50, keyedTenths: 80 });
  });

  it('moves the steps of a label', () => {
    const shifted = dayWith('[{shift: morning, by: 30m}]').events;
    expect(shifted.map(({ atMs }) => atMs)).toEqual([
      360_000, 2_100_000, 2_400_000, 3_000_000, 3_060_000, 7_800_000, 18_600_000, 22_200_000, 22_260_000,
    ]);
    expect(dayWith('[{shift: lunch, by: -3h}]').events.map((event) => event.do)).toEqual([
      'set',
      'set',
      'pair',
      'run',
      'run',
      'tap',
      'leave',
      'cut',
      'cell',
    ]);
  });

  it('drops the steps of a label', () => {
    expect(dayWith('[{drop: morning}]').events.map((event) => event.do)).toEqual([
      'set',
      'tap',
      'leave',
      'cut',
      'cell',
    ]);
  });

  it('gives the steps of a label to another worker', () => {
    const { events } = dayWith('[{give: morning, to: Bram}]');
    expect(events.slice(2, 5)).toMatchObject([{ with: 'Bram' }, { by: 'Bram' }, { by: 'Bram' }]);
    expect(events.slice(5)).toEqual(AS_WRITTEN.events.slice(5));
    expect(dayWith('[{give: tea, to: Bram}]').events[5]).toMatchObject({ do: 'tap', worker: 'Bram' });
  });

  it('gives a readout to another worker, or to another tool, and takes none from one to the other', () => {
    const day = '[{at: 09:00, readout: Edda, as: out}, {at: 09:01, readout: breaker, as: out}]';
    const changes = '{another worker: [{give: out, to: Bram}], another tool: [{use: drill, in: out}]}';
    const { whatIfRuns } = read(scenarioText({ tools: TOOLS, day, 'what-if': changes }));
    const readOut = whatIfRuns.map((run) => run.day.events.map((event) => event.do === 'readout' && event.device));
    expect(readOut).toEqual([
      ['Bram', 'breaker'],
      ['Edda', 'drill'],
    ]);
  });

  it('puts another tool into the steps of a label', () => {
    const { events } = dayWith('[{use: drill, in: morning}]');
    expect(events[0]).toMatchObject({ do: 'set', tool: 'drill', toTenths: 75 });
    expect(events[1]).toMatchObject({ do: 'set', tool: 'breaker', toTenths: 42 });
    expect(events.slice(2, 5)).toMatchObject([{ tool: 'drill' }, { tool: 'drill' }, { tool: 'drill' }]);
  });

  it('leaves a wrong setting wrong, also on another tool', () => {
    const day = DAY.replace('to: 4.2}', 'to: 4.2, as: mistake}');
    const { whatIfRuns } = read(scenarioText({ tools: TOOLS, day, 'what-if': '{other: [{use: drill, in: mistake}]}' }));
    expect(whatIfRuns[0]?.day.events[1]).toMatchObject({ do: 'set', tool: 'drill', toTenths: 42 });
  });

  it('makes its changes one after the other', () => {
    const { events } = dayWith('[{magnitude: drill, to: 6.0}, {use: drill, in: morning}, {drop: tea}]');
    expect(events[0]).toMatchObject({ do: 'set', tool: 'drill', toTenths: 60 });
    expect(events.some((event) => event.do === 'tap')).toBe(false);
  });

  it('has the expectations that name it, and the day as written the others', () => {
    const expectations = '[{at: end, points: Edda, is: 1}, {what-if: other, at: tea, points: Edda, is: 2}]';
    const whatIf = '{other: [{shift: tea, by: 1h}], third: []}';
    const { runs, whatIfRuns } = read(scenarioText({ day: DAY, expect: expectations, 'what-if': whatIf }));
    expect(runs[0]?.expectations).toMatchObject([{ form: 'at', atMs: 33_000_000 }]);
    expect(whatIfRuns[0]?.expectations).toMatchObject([{ form: 'at', atMs: 11_400_000 }]);
    expect(whatIfRuns[1]?.expectations).toEqual([]);
  });

  it.each([
    ['{magnitud: breaker, to: 8.0}', ['unknown kind "magnitud" → magnitude']],
    ['{magnitude: breakr, to: 8.0}', ['unknown tool "breakr" → breaker']],
    ['{magnitude: breaker, to: 8.05}', ['8.05 is no magnitude that a counter can be set to']],
    ['{shift: mornin, by: 5m}', ['unknown label "mornin" → morning']],
    ['{shift: morning, by: 0m}', ['"0m" is no length of time to move by']],
    ['{shift: morning, by: -30m}', ['what is moved so far lies outside the day']],
    ['{shift: lunch, by: 4h}', ['what is moved so far lies outside the day']],
    ['{drop: lunch, by: 5m}', ['a "drop" change has no "by"']],
    ['{give: lunch, to: Bram}', ['no step of this label can be given away']],
    ['{give: faults, to: Bram}', ['no step of this label can be given away']],
    ['{use: drill, in: faults}', ['no step of this label can use another tool']],
    ['{give: morning, to: Edda}', ['no step of this label can be given away']],
    ['{use: drill, in: lunch}', ['no step of this label can use another tool']],
    ['{drop: lunch, give: tea, to: Bram}', ['a second kind, "give", beside "drop"']],
  ])('%s is refused', (change, messages) => {
    expect(messagesOf({ day: DAY, 'what-if': `{other: [${change}]}` })).toEqual(messages);
  });

  it('that nobody knows cannot be expected of', () => {
    const expect_ = '[{what-if: othr, at: end, points: Edda, is: 1}]';
    expect(messagesOf({ expect: expect_, 'what-if': '{other: []}' })).toEqual(['unknown what-if "othr" → other']);
  });

  it('leaves no expectation at a step that it drops', () => {
    const expect_ = '[{what-if: other, at: tea, points: Edda, is: 1}]';
    expect(messagesOf({ day: DAY, expect: expect_, 'what-if': '{other: [{drop: tea}]}' })).toEqual([
      'no step of this label is left',
    ]);
  });
});
