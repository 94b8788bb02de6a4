import { describe, expect, it } from 'vitest';
import { TraceIndex } from '../../../src/judge/expectations/trace-index.js';
import { weigh } from '../../../src/judge/expectations/weigh.js';
import type { Verdict } from '../../../src/judge/verdict.js';
import type { Claim, Comparison, Expectation, Happening, Quantity } from '../../../src/scenario/expectation.js';
import { DayTrace, MINUTE, POINT, SEVEN_MS } from '../day.js';

type Body = Expectation extends infer E ? (E extends Expectation ? Omit<E, 'place' | 'text'> : never) : never;

function judged(day: DayTrace, body: Body): Verdict {
  const place = { file: 'day.yaml', line: 1, column: 1 };
  return weigh(new TraceIndex(day.events), { place, text: '', ...body } as Expectation);
}

const exactly = (digits: number): Comparison => ({ is: 'exactly', value: { digits, places: 0 } });
const atLeast = (digits: number): Comparison => ({ is: 'at least', value: { digits, places: 0 } });
const points = (worker: string, compare: Comparison): Claim => ({ quantity: { of: 'points', worker }, compare });

/** Edda's points: 10 at 07:10, 25 at 07:20, 40 at 07:30; an alert at 07:30, repeated at 07:31; back at 07:15 and 07:25. */
function day(): DayTrace {
  const trace = new DayTrace(60 * MINUTE);
  trace.shift(MINUTE, 'opened');
  trace.ledger(10 * MINUTE, 1, { dose: 10 * POINT });
  trace.add(15 * MINUTE, 'bench', 'hand.return', { who: ['Bram', 'Edda'] });
  trace.ledger(20 * MINUTE, 2, { dose: 25 * POINT });
  trace.add(25 * MINUTE, 'bench', 'hand.return', { who: ['Edda'] });
  trace.ledger(30 * MINUTE, 3, { dose: 40 * POINT });
  trace.alert(30 * MINUTE, 'notice');
  trace.alert(31 * MINUTE, 'notice', 1);
  return trace;
}

describe('at', () => {
  it('takes the value after all events up to that time', () => {
    expect(judged(day(), { form: 'at', atMs: 20 * MINUTE, claim: points('Edda', exactly(25)) }).held).toBe(true);
    expect(judged(day(), { form: 'at', atMs: 20 * MINUTE - 1, claim: points('Edda', exactly(10)) }).held).toBe(true);
    expect(judged(day(), { form: 'at', atMs: 60 * MINUTE, claim: points('Edda', exactly(40)) }).held).toBe(true);
    expect(judged(day(), { form: 'at', atMs: 60 * MINUTE, claim: points('Bram', exactly(0)) }).held).toBe(true);
  });

  it('says what was expected and seen, when, and the events around it', () => {
    const verdict = judged(day(), { form: 'at', atMs: 28 * MINUTE, claim: points('Edda', atLeast(26)) });
    expect(verdict).toMatchObject({
      held: false,
      expected: 'at 07:28:00: the points of Edda at least 26 points',
      seen: '25 points (4500000000 u) since 07:20:00',
      atMs: 28 * MINUTE,
      sinceMs: 20 * MINUTE,
    });
    const around = verdict.around.map((event) => `${event.kind} ${event.at / MINUTE}`);
    const before = ['inner.ledger 10', 'hand.return 15', 'inner.ledger 20', 'hand.return 25'];
    expect(around).toEqual([...before, 'inner.ledger 30', 'shown.alert 30']);
  });

  it('does not hold beyond the end of the day, where nothing is known', () => {
    const verdict = judged(day(), { form: 'at', atMs: 60 * MINUTE + 1, claim: points('Edda', exactly(40)) });
    expect(verdict).toMatchObject({ held: false, seen: 'the day ends at 08:00:00, so nothing was checked' });
  });
});

describe('always', () => {
  const always = (fromMs: number, untilMs: number, least: number) =>
    judged(day(), { form: 'always', fromMs, untilMs, claim: points('Edda', atLeast(least)) });

  it('holds at every moment from the start of the span to just before its end', () => {
    expect(always(20 * MINUTE, 30 * MINUTE, 25).held).toBe(true);
    expect(always(20 * MINUTE - 1, 30 * MINUTE, 25).held).toBe(false);
    const below: Claim = points('Edda', { is: 'below', value: { digits: 40, places: 0 } });
    expect(judged(day(), { form: 'always', fromMs: 0, untilMs: 30 * MINUTE, claim: below }).held).toBe(true);
    const broken = judged(day(), { form: 'always', fromMs: 0, untilMs: 30 * MINUTE + 1, claim: below });
    expect(broken).toMatchObject({ held: false, atMs: 30 * MINUTE, seen: '40 points (7200000000 u) since 07:30:00' });
  });

  it('does not hold over a span that is empty', () => {
    for (const [from, until] of [
      [20, 20],
      [20, 10],
      [60, 70],
    ] as const) {
      const verdict = always(from * MINUTE, until * MINUTE, 0);
      expect(verdict).toMatchObject({ held: false, seen: 'that span is empty, so nothing was checked' });
    }
  });
});

describe('never', () => {
  const alert = (worker: string, level: string | null): Happening => ({ of: 'alert', level, worker });
  const never = (happening: Happening, from: number, until: number) =>
    judged(day(), { form: 'never', fromMs: from * MINUTE, untilMs: until * MINUTE, claim: { happening } });

  it('tells whether something happens from the start of the span to just before its end', () => {
    expect(never(alert('Edda', 'notice'), 0, 30).held).toBe(true);
    expect(never(alert('Edda', 'notice'), 0, 60)).toMatchObject({
      held: false,
      seen: 'it happened at 07:30:00',
      atMs: 30 * MINUTE,
    });
    expect(never(alert('Edda', null), 30, 31).held).toBe(false);
    expect(never(alert('Edda', 'action'), 0, 60).held).toBe(true);
    expect(never(alert('Bram', null), 0, 60).held).toBe(true);
  });

  it('does not take the repetition of an alert for another one', () => {
    expect(never(alert('Edda', 'notice'), 31, 60).held).toBe(true);
  });

  it('tells whether a claim ever holds', () => {
    const claim = points('Edda', atLeast(40));
    expect(judged(day(), { form: 'never', fromMs: 0, untilMs: 30 * MINUTE, claim }).held).toBe(true);
    expect(judged(day(), { form: 'never', fromMs: 0, untilMs: 31 * MINUTE, claim })).toMatchObject({
      held: false,
      atMs: 30 * MINUTE,
    });
  });

  it('does not hold over a span that is empty', () => {
    expect(never(alert('Bram', null), 70, 80)).toMatchObject({ held: false, seen: expect.stringContaining('empty') });
  });
});

describe('within', () => {
  const returned = (by: string): Happening => ({ of: 'event', kind: 'hand.return', by });
  const within = (minutes: number, after: { atMs: number } | { happening: Happening }, least: number) =>
    judged(day(), { form: 'within', withinMs: minutes * MINUTE, after, claim: points('Edda', atLeast(least)) });

  it('must come to hold after every occurrence of the anchor', () => {
    expect(within(5, { happening: returned('Edda') }, 25).held).toBe(true);
    expect(within(4, { happening: returned('Edda') }, 25)).toMatchObject({
      held: false,
      seen: '10 points (1800000000 u) since 07:10:00, by 07:19:00',
      atMs: 19 * MINUTE,
    });
    expect(within(5, { happening: returned('Edda') }, 40).held).toBe(false);
    expect(within(5, { happening: returned('Bram') }, 25).held).toBe(true);
  });

  it('counts from a time as well', () => {
    expect(within(2, { atMs: 28 * MINUTE }, 40).held).toBe(true);
    expect(within(1, { atMs: 28 * MINUTE }, 40).held).toBe(false);
  });

  it('does not hold where the anchor never comes, since nothing was checked', () => {
    const verdict = within(5, { happening: { of: 'event', kind: 'hand.leave', by: 'Edda' } }, 0);
    expect(verdict).toMatchObject({ held: false, seen: 'hand.leave by Edda never came, so nothing was checked' });
    expect(within(5, { atMs: 60 * MINUTE }, 0).held).toBe(false);
  });

  it('leaves an anchor out whose time is not up when the day ends, unless it is the only one', () => {
    const happening = returned('Edda');
    const alert: Happening = { of: 'alert', level: 'notice', worker: 'Edda' };
    const claim = { happening: alert };
    const soon = judged(day(), { form: 'within', withinMs: 16 * MINUTE, after: { happening }, claim });
    expect(soon).toMatchObject({ held: true, seen: 'it happened at 07:30:00' });
    const trace = day();
    trace.add(55 * MINUTE, 'bench', 'hand.return', { who: ['Edda'] });
    expect(judged(trace, { form: 'within', withinMs: 16 * MINUTE, after: { happening }, claim }).held).toBe(true);
    trace.add(56 * MINUTE, 'bench', 'hand.return', { who: ['Bram'] });
    expect(judged(trace, { form: 'within', withinMs: 2 * MINUTE, after: { happening }, claim }).held).toBe(false);
    const last: Happening = { of: 'alert', level: 'limit', worker: 'Edda' };
    const undecided = {
      form: 'within',
      withinMs: 10 * MINUTE,
      after: { atMs: 55 * MINUTE },
      claim: { happening: last },
    } as const;
    expect(judged(trace, undecided)).toMatchObject({
      held: false,
      seen: expect.stringContaining('before the time is up'),
    });
  });

  it('takes only what happens after the anchor, even at the same time', () => {
    const trace = new DayTrace(60 * MINUTE);
    const tally = {
      form: 'within',
      withinMs: 0,
      claim: { happening: { of: 'message', frame: 'tally', from: 'breaker', to: 'Edda' } },
    } as const;
    const after = { happening: { of: 'event', kind: 'hand.stop', by: null } } as const;
    trace.tally(MINUTE, 1);
    trace.stop(MINUTE);
    expect(judged(trace, { ...tally, after })).toMatchObject({
      held: false,
      seen: expect.stringContaining('did not happen'),
    });
    trace.tally(MINUTE, 1);
    expect(judged(trace, { ...tally, after }).held).toBe(true);
  });
});

describe('rises by', () => {
  const rise = (from: number, until: number, compare: Comparison) =>
    judged(day(), {
      form: 'rises by',
      fromMs: from * MINUTE,
      untilMs: until * MINUTE,
      quantity: { of: 'points', worker: 'Edda' },
      compare,
    });

  it('compares the difference of the two ends', () => {
    expect(rise(10, 30, exactly(30)).held).toBe(true);
    expect(rise(11, 20, exactly(15)).held).toBe(true);
    expect(rise(10, 29, exactly(30))).toMatchObject({
      held: false,
      seen: 'a rise by 15 points (2700000000 u), from 10 points (1800000000 u) to 25 points (4500000000 u)',
    });
  });

  it('does not hold over an empty span or one beyond the day', () => {
    expect(rise(10, 10, exactly(0)).held).toBe(false);
    expect(rise(10, 61, exactly(30)).held).toBe(false);
  });

  it('does not hold where a display is blank', () => {
    const trace = day();
    trace.display(40 * MINUTE, 'Edda', { value: 40 });
    const quantity: Quantity = { of: 'display value', device: 'Edda' };
    const compare: Comparison = { is: 'at most', value: { digits: 100, places: 0 } };
    const body = { form: 'rises by', fromMs: 30 * MINUTE, untilMs: 50 * MINUTE, quantity, compare } as const;
    expect(judged(trace, body)).toMatchObject({ held: false, seen: 'from nothing to 40' });
  });
});

describe('quantities', () => {
  const seen = (trace: DayTrace, atMs: number, quantity: Quantity, value: number) =>
    judged(trace, { form: 'at', atMs, claim: { quantity, compare: exactly(value) } }).held;

  it('reads points and dose of the newest shift only (WEA-3)', () => {
    const trace = day();
    trace.shift(40 * MINUTE, 'closed');
    trace.shift(41 * MINUTE, 'opened', 2);
    trace.ledger(42 * MINUTE, 5, { dose: 50 * POINT, total: 50 * POINT, shift: 1 });
    trace.ledger(43 * MINUTE, 6, { dose: 7, total: 7, shift: 2, session: 2 });
    const dose: Quantity = { of: 'ledger dose', worker: 'Edda' };
    expect(seen(trace, 40 * MINUTE, dose, 40 * POINT)).toBe(true);
    expect(seen(trace, 42 * MINUTE, dose, 0)).toBe(true);
    expect(seen(trace, 43 * MINUTE, dose, 7)).toBe(true);
    expect(seen(trace, 42 * MINUTE, { of: 'points', worker: 'Edda' }, 0)).toBe(true);
  });

  it('reads a counter by session, in all, and unclaimed', () => {
    const trace = new DayTrace();
    trace.count(MINUTE, 10, { session: 0 });
    trace.count(2 * MINUTE, 20, { shortBursts: 2 });
    trace.tally(3 * MINUTE, 30, { unratedWindows: 4 });
    trace.count(4 * MINUTE, 5, { session: 2, shortBursts: 1 });
    trace.tally(5 * MINUTE, 25, { sequence: 1 });
    const end = 10 * MINUTE;
    const windows = (session: number | null): Quantity => ({ of: 'trigger time', tool: 'breaker', session });
    expect(
      [0, 1, 2, null].map((session, i) => seen(trace, end, windows(session), [1000, 3000, 500, 4500][i]!)),
    ).toEqual([true, true, true, true]);
    const dose = (session: number | null): Quantity => ({ of: 'counter dose', tool: 'breaker', session });
    expect(seen(trace, end, dose(1), 30 * 1_440_000)).toBe(true);
    expect(seen(trace, end, dose(null), 45 * 1_440_000)).toBe(true);
    expect(seen(trace, end, dose(3), 0)).toBe(true);
    expect(seen(trace, end, { of: 'unclaimed dose', tool: 'breaker' }, 10 * 1_440_000)).toBe(true);
    expect(seen(trace, end, { of: 'unrated time', tool: 'breaker', session: 1 }, 400)).toBe(true);
    expect(seen(trace, end, { of: 'short bursts', tool: 'breaker' }, 3)).toBe(true);
    expect(seen(trace, end, { of: 'trigger time', tool: 'saw', session: null }, 0)).toBe(true);
  });

  it('reads what a device still has after a power failure, less than before', () => {
    const trace = day();
    trace.count(31 * MINUTE, 50);
    trace.count(32 * MINUTE, 40);
    trace.tally(33 * MINUTE, 35);
    const windows: Quantity = { of: 'trigger time', tool: 'breaker', session: 1 };
    expect(seen(trace, 31 * MINUTE, windows, 5000)).toBe(true);
    expect(seen(trace, 33 * MINUTE, windows, 4000)).toBe(true);
    trace.add(34 * MINUTE, 'Edda', 'inner.resumed', { dose: 30 * POINT, open: true, shift: 1 });
    trace.add(34 * MINUTE, 'Edda', 'inner.resumed', { dose: 7, open: true, shift: 2 });
    expect(seen(trace, 34 * MINUTE, { of: 'points', worker: 'Edda' }, 30)).toBe(true);
  });

  it('reads what a device told of a start and a report, and what it refused', () => {
    const trace = new DayTrace();
    trace.add(MINUTE, 'Edda', 'flash.recovered', { records: 5, retired: 2, torn: 1 });
    trace.add(2 * MINUTE, 'breaker', 'flash.recovered', { records: 9, retired: 4, torn: 3 });
    const found = (of: 'torn records' | 'retired pages', device: string): Quantity => ({ of, device });
    expect(seen(trace, MINUTE - 1, found('torn records', 'Edda'), 0)).toBe(true);
    expect(seen(trace, 2 * MINUTE, found('torn records', 'Edda'), 1)).toBe(true);
    expect(seen(trace, 2 * MINUTE, found('retired pages', 'breaker'), 4)).toBe(true);
    const report = { link: 1, powerLosses: 6, sequence: 1, session: 1, shortBursts: 0, to: 'Edda' };
    trace.add(3 * MINUTE, 'breaker', 'air.report', { ...report, bytes: '', unclaimedDose: 0, unclaimedWindows: 0 });
    expect(seen(trace, 3 * MINUTE, { of: 'power losses', tool: 'breaker' }, 6)).toBe(true);
    expect(seen(trace, 3 * MINUTE, { of: 'power losses', tool: 'saw' }, 0)).toBe(true);
    for (const [at, by, reason] of [
      [4, 'Edda', 'tag'],
      [5, 'Edda', 'replayed'],
      [6, 'breaker', 'tag'],
    ] as const) {
      trace.add(at * MINUTE, by, 'air.refused', { frame: 'tally', from: 'bench', reason });
    }
    const refused = (reason: string | null): Quantity => ({ of: 'refused frames', device: 'Edda', reason });
    expect([seen(trace, 6 * MINUTE, refused(null), 2), seen(trace, 6 * MINUTE, refused('tag'), 1)]).toEqual([
      true,
      true,
    ]);
    expect(seen(trace, 4 * MINUTE, refused('replayed'), 0)).toBe(true);
  });

  it('reads both numbers of a display', () => {
    const trace = new DayTrace();
    trace.display(MINUTE, 'breaker', { value: 120, second: 16 });
    trace.display(2 * MINUTE, 'breaker', { value: 120 });
    const second: Quantity = { of: 'second number', tool: 'breaker' };
    expect(seen(trace, MINUTE, { of: 'display value', device: 'breaker' }, 120)).toBe(true);
    expect(seen(trace, MINUTE, second, 16)).toBe(true);
    const blank = judged(trace, { form: 'at', atMs: 2 * MINUTE, claim: { quantity: second, compare: exactly(16) } });
    expect(blank).toMatchObject({ held: false, seen: 'nothing since 07:02:00' });
  });

  it('finds no number on a blank display', () => {
    const trace = new DayTrace();
    const value: Quantity = { of: 'display value', device: 'Edda' };
    const wide: Comparison = { is: 'between', low: { digits: -9, places: 0 }, high: { digits: 9, places: 0 } };
    trace.display(MINUTE, 'Edda', { value: 7 });
    trace.display(2 * MINUTE, 'Edda');
    expect(seen(trace, MINUTE, value, 7)).toBe(true);
    const blank = judged(trace, { form: 'at', atMs: 2 * MINUTE, claim: { quantity: value, compare: wide } });
    expect(blank).toMatchObject({ held: false, seen: 'nothing since 07:02:00' });
  });
});

describe('conditions', () => {
  const trace = new DayTrace();
  trace.display(MINUTE, 'Edda', { icons: ['stale', 'unrated'], screen: 'ready' });
  trace.add(MINUTE, 'breaker', 'inner.state', { region: 'panel', state: 'setting.reviewing' });
  const holds = (claim: Claim, atMs = MINUTE) => judged(trace, { form: 'at', atMs, claim });

  it('reads screens, icons and states', () => {
    expect(holds({ condition: { of: 'display screen', device: 'Edda', is: 'ready' } }).held).toBe(true);
    expect(holds({ condition: { of: 'display screen', device: 'Edda', is: 'points' } }).seen).toContain('"ready"');
    expect(holds({ condition: { of: 'display screen', device: 'Bram', is: 'ready' } }).held).toBe(false);
    expect(holds({ condition: { of: 'display icon', device: 'Edda', has: 'stale' } }).held).toBe(true);
    expect(holds({ condition: { of: 'display icon', device: 'Edda', has: 'long' } }).seen).toContain(
      '"stale", "unrated"',
    );
    const state = { of: 'state', device: 'breaker', region: 'panel', is: 'setting.reviewing' } as const;
    expect(holds({ condition: state }).held).toBe(true);
    expect(holds({ condition: { ...state, region: 'session' } }).held).toBe(false);
    expect(holds({ condition: state }, MINUTE - 1)).toMatchObject({ held: false, seen: 'nothing from the start' });
  });
});

describe('messages', () => {
  it('are matched by frame, sender and receiver', () => {
    const trace = new DayTrace();
    trace.tally(MINUTE, 1);
    trace.pairing(2 * MINUTE, 'hello', 'Edda', 'breaker');
    const sent = (frame: string, from: string | null, to: string | null) => {
      const claim = { happening: { of: 'message', frame, from, to } } as const;
      return !judged(trace, { form: 'never', fromMs: 0, untilMs: 5 * MINUTE, claim }).held;
    };
    expect([sent('tally', 'breaker', 'Edda'), sent('tally', null, null), sent('hello', 'Edda', null)]).toEqual([
      true,
      true,
      true,
    ]);
    expect([
      sent('tally', 'saw', null),
      sent('tally', null, 'Bram'),
      sent('accept', null, null),
      sent('ack', null, null),
    ]).toEqual([false, false, false, false]);
  });
});

it('refuses a trace without its beginning and a kind that no trace has', () => {
  expect(() => new TraceIndex([])).toThrow('begins with hand.day');
  const claim = { happening: { of: 'event', kind: 'hand.clap', by: null } } as const;
  expect(() => judged(day(), { form: 'never', fromMs: 0, untilMs: SEVEN_MS, claim })).toThrow('hand.clap');
});
