// An event that cannot happen comes to nothing and says why, so that any event of a day may be left out.
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { Bench } from '../../src/bench/bench.js';
import { NOTHING_REASONS } from '../../src/bench/nothing.js';
import { faultyDay } from '../../src/prove/days/day.js';
import type { Day, DayEvent } from '../../src/scenario/day.js';
import { arbitraryDay } from '../days/arbitrary-day.js';
import { PATIENCE_MS, PATIENT } from '../days/patience.js';
import { air, cut, eventsOf, MINUTE_MS, nothings, pair, run, SECOND_MS, smallDay } from './small-day.js';

vi.setConfig({ testTimeout: PATIENCE_MS });

const leave = (atMs: number, who: readonly string[], forMs: number | null = null): DayEvent => {
  return { atMs, do: 'leave', who, forMs };
};
const set = (atMs: number, tool: string, toTenths: number): DayEvent => ({ atMs, do: 'set', tool, toTenths });
const touch = (atMs: number, tool: string, worker: string): DayEvent => ({ atMs, do: 'touch', tool, with: worker });

const carry = (atMs: number, tool: string, forMs: number): DayEvent => ({ atMs, do: 'carry', tool, forMs });
const press = (atMs: number, tool: string, forMs: number): DayEvent => ({ atMs, do: 'press', tool, forMs });
const turn = (atMs: number, tool: string, detents: number, everyMs: number): DayEvent => {
  return { atMs, do: 'turn', tool, detents, everyMs };
};

const CASES: readonly (readonly [string, readonly DayEvent[], readonly string[]])[] = [
  [
    'a run of a tool that runs',
    [run(0, 'saw', 'Edda', 2000), run(1999, 'saw', 'Bram', 2000)],
    ['1999 Bram run: already running'],
  ],
  [
    'a run of a tool that is carried, and another drive with it',
    [carry(0, 'saw', 2000), run(1999, 'saw', 'Bram', 2000), carry(1999, 'saw', 2000)],
    ['1999 Bram run: on the road', '1999 saw carry: on the road'],
  ],
  [
    'a drive with a tool that runs',
    [run(0, 'saw', 'Edda', 2000), carry(1999, 'saw', 2000)],
    ['1999 saw carry: already running'],
  ],
  [
    'a run with hands that hold another tool that runs',
    [run(0, 'saw', 'Edda', 2000), run(1999, 'breaker', 'Edda', 2000)],
    ['1999 Edda run: hands full'],
  ],
  [
    'a run of a tool that is elsewhere',
    [leave(0, ['Edda']), run(10, 'saw', 'Edda', 2000)],
    ['10 Edda run: out of reach'],
  ],
  ['a pairing with one who is elsewhere', [leave(0, ['Edda']), pair(10, 'saw', 'Edda')], ['10 saw pair: out of reach']],
  ['a touch of what is elsewhere', [leave(0, ['saw']), touch(10, 'saw', 'Edda')], ['10 saw touch: out of reach']],
  ['a setting while a tool is paired', [pair(0, 'saw', 'Edda'), set(2000, 'saw', 50)], ['2000 saw set: ring in use']],
  ['a pairing while a tool is set', [set(0, 'saw', 90), pair(2000, 'saw', 'Edda')], ['2000 saw pair: ring in use']],
  [
    'a press, a turn, a setting and a pairing while the ring is pressed',
    [
      press(0, 'saw', 1000),
      press(999, 'saw', 100),
      turn(999, 'saw', 1, 100),
      set(999, 'saw', 50),
      pair(999, 'saw', 'Edda'),
    ],
    ['press', 'turn', 'set', 'pair'].map((verb) => `999 saw ${verb}: ring in use`),
  ],
  [
    'a press while the ring is turned, and a turn while a tool is set',
    [turn(0, 'saw', -3, 500), press(999, 'saw', 100), set(5000, 'breaker', 90), turn(7000, 'breaker', 1, 100)],
    ['999 saw press: ring in use', '7000 breaker turn: ring in use'],
  ],
  [
    'a power failure of what has no power',
    [
      cut(0, 'saw', 'now', 9000),
      cut(1000, 'saw', 'now', 9000),
      cut(2000, 'saw', 'write', 9000),
      cut(0, 'Edda', 'now', 9000),
      cut(8999, 'Edda', 'erase', 9000),
    ],
    ['1000 saw cut: no power', '2000 saw cut: no power', '8999 Edda cut: no power'],
  ],
  [
    'a setting of a counter that has no power, and a pairing with it',
    [cut(0, 'saw', 'now', MINUTE_MS), set(1000, 'saw', 50), pair(10_000, 'saw', 'Edda')],
    ['3500 saw set: refused', '33000 saw pair: no answer'],
  ],
  ['a going of one who has gone', [leave(0, ['Edda']), leave(10, ['Edda'])], ['10 Edda leave: away already']],
  ['a coming of one who is there', [{ atMs: 5, do: 'return', who: ['Bram', 'saw'] }], ['5 Bram return: here already']],
  ['a setting of a tool that runs', [run(0, 'saw', 'Edda', 9000), set(1000, 'saw', 50)], ['3500 saw set: refused']],
  [
    'a pairing of a tool that runs',
    [run(0, 'saw', 'Edda', 9000), pair(1000, 'saw', 'Edda')],
    ['4000 saw pair: refused'],
  ],
  [
    'a setting that a start of the tool cuts short',
    [set(0, 'saw', 90), run(3000, 'saw', 'Edda', 9000)],
    [expect.stringMatching(/^3\d\d\d saw set: interrupted$/) as unknown as string],
  ],
  [
    'a setting to what the ring does not reach',
    [set(0, 'saw', 501)],
    [expect.stringMatching(/^\d+ saw set: given up$/) as unknown as string],
  ],
  [
    'a pairing of which no word gets through',
    [air(0, 'saw', 'Edda', { loss: { num: 1, den: 1 } }), pair(10, 'saw', 'Edda')],
    ['23010 saw pair: no answer'],
  ],
  [
    'a pairing of two that are both busy with others',
    [touch(0, 'saw', 'Bram'), touch(0, 'breaker', 'Edda'), pair(1000, 'saw', 'Edda')],
    ['4000 saw pair: digits differ'],
  ],
];

describe('comes to nothing:', () => {
  it.each(CASES)('%s', (_, events, expected) => {
    expect(nothings(smallDay(events))).toEqual(expected);
  });

  it('every reason that there is', () => {
    const reached = CASES.flatMap(([, events]) =>
      eventsOf(smallDay(events), 'hand.nothing').map(({ reason }) => reason),
    );
    expect(new Set(reached)).toEqual(new Set(NOTHING_REASONS));
  });
});

describe('and happens all the same:', () => {
  it.each<readonly [string, readonly DayEvent[]]>([
    ['a run at the moment at which the tool stops', [run(0, 'saw', 'Edda', 2000), run(2000, 'saw', 'Bram', 2000)]],
    [
      'a run at the moment at which the hands are free',
      [run(0, 'saw', 'Edda', 2000), run(2000, 'breaker', 'Edda', 2000)],
    ],
    [
      'a run of a tool on the ground beside one in the hands',
      [run(0, 'saw', 'Edda', 2000), run(10, 'breaker', 'Edda', 9, false)],
    ],
    ['a run of a tool that was taken along', [leave(0, ['Edda', 'saw']), run(10, 'saw', 'Edda', 2000)]],
    [
      'a gesture at the moment at which the ring is free',
      [press(0, 'saw', 1000), turn(1000, 'saw', 3, 500), press(2000, 'saw', 100)],
    ],
    ['a power failure at the moment of another’s end', [cut(0, 'saw', 'now', 2000), cut(2000, 'saw', 'now', 2000)]],
    [
      'a touch, a tap and a readout of what has no power',
      [
        cut(0, 'saw', 'now', MINUTE_MS),
        cut(0, 'Edda', 'now', MINUTE_MS),
        touch(1000, 'saw', 'Edda'),
        { atMs: 2000, do: 'tap', worker: 'Edda', forMs: 200 },
        { atMs: 3000, do: 'readout', device: 'saw' },
      ],
    ],
    ['a going at the moment of a coming back', [leave(0, ['Edda'], 2000), leave(2000, ['Edda'], 2000)]],
    ['a going of two of whom one has gone', [leave(0, ['Edda']), leave(10, ['Edda', 'Bram'])]],
  ])('%s', (_, events) => {
    expect(nothings(smallDay(events))).toEqual([]);
  });

  it('those who go together are together, and whoever goes alone lets a tool go', () => {
    const day = smallDay([
      leave(0, ['Edda', 'saw']),
      run(1000, 'saw', 'Edda', MINUTE_MS),
      leave(10 * SECOND_MS, ['Bram']),
      run(10 * SECOND_MS, 'breaker', 'Bram', MINUTE_MS),
      { atMs: 20 * SECOND_MS, do: 'return', who: ['Edda'] },
    ]);
    expect(nothings(day)).toEqual(['10000 Bram run: out of reach']);
    expect(eventsOf(day, 'hand.stop').map(({ at, tool }) => [at, tool])).toEqual([[20_000, 'saw']]);
  });
});

describe('a tool that is let go', () => {
  it.each<readonly [string, readonly string[]]>([
    ['because its holder leaves', ['Edda']],
    ['because it is carried away', ['saw']],
  ])('%s, stops', (_, who) => {
    const day = smallDay([run(1000, 'saw', 'Edda', MINUTE_MS), leave(10 * SECOND_MS, who)]);
    expect(eventsOf(day, 'hand.stop').map(({ at, tool }) => [at, tool])).toEqual([[10_000, 'saw']]);
  });

  it('goes on running where it lies on the ground, or leaves with its holder', () => {
    const onGround = smallDay([run(1000, 'saw', 'Edda', MINUTE_MS, false), leave(10 * SECOND_MS, ['Edda'])]);
    const together = smallDay([run(1000, 'saw', 'Edda', MINUTE_MS), leave(10 * SECOND_MS, ['Edda', 'saw'])]);
    for (const day of [onGround, together]) expect(eventsOf(day, 'hand.stop').map(({ at }) => at)).toEqual([61_000]);
  });
});

describe('a name that the day does not have', () => {
  it.each<readonly [string, DayEvent]>([
    ['a tool', run(0, 'swa', 'Edda', 100)],
    ['a worker', run(0, 'saw', 'Eda', 100)],
    ['somebody who leaves', leave(0, ['Eda'])],
  ])('is a programmer’s error: %s', (_, event) => {
    expect(() => Bench.open(smallDay([event])).run()).toThrow('the day has no');
  });
});

describe('any event of a day', () => {
  it('may be left out', () => {
    const shorter = (day: Day, left: number) => {
      const events = day.events.filter((_, index) => index !== left % Math.max(1, day.events.length));
      const bench = Bench.open({ ...day, events }, { keys: false });
      bench.run();
      expect(bench.nowMs).toBe(day.untilMs);
    };
    const untilMs = 1_800_000;
    const rough = arbitraryDay({ rough: true, untilMs, runs: 30, runMs: [300, 60_000] });
    fc.assert(fc.property(fc.oneof(rough, faultyDay({ untilMs })), fc.nat(), shorter), {
      ...PATIENT,
      numRuns: 80,
      seed: 1,
    });
  });
});
