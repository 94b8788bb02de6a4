import { describe, expect, it } from 'vitest';
import { Invariants } from '../../src/judge/invariants/watcher.js';
import { judge } from '../../src/judge/judge.js';
import type { Expectation } from '../../src/scenario/expectation.js';
import { DayTrace, MINUTE } from './day.js';

/** Edda runs the breaker for 10 s in a session of her own, and is charged so many u for it. */
function day(dose: number): DayTrace {
  const trace = new DayTrace();
  trace.shift(0, 'opened');
  trace.session(0, 'opened');
  trace.start(MINUTE);
  trace.stop(MINUTE + 10_000);
  trace.count(MINUTE + 10_500, 100);
  const tally = trace.tally(MINUTE + 10_500, 100);
  trace.heard(MINUTE + 10_510, tally);
  trace.ledger(MINUTE + 10_510, 100, { dose });
  trace.session(2 * MINUTE, 'sealed');
  trace.session(2 * MINUTE, 'opened', 2, 'Bram');
  const acknowledged = trace.heardAck(2 * MINUTE, 1);
  trace.add(2 * MINUTE, 'breaker', 'inner.session', { session: 1, what: 'delivered', with: 'Edda' }, acknowledged);
  return trace;
}

const DOSE = 144_000_000;
const END = 2 * MINUTE + 30_000;

function expecting(dose: number): readonly Expectation[] {
  const place = { file: 'day.yaml', line: 3, column: 5 };
  const compare = { is: 'exactly', value: { digits: dose, places: 0 } } as const;
  const claim = { quantity: { of: 'ledger dose', worker: 'Edda' }, compare } as const;
  return [{ place, text: 'dose', form: 'at', atMs: 2 * MINUTE, claim }];
}

describe('judge', () => {
  // The day ends 20 s after the tally was heard, before anything is stale.
  const short = (dose: number) => {
    const made = day(dose);
    const first = made.events[0];
    if (first?.kind !== 'hand.day') throw new Error('a trace begins with hand.day');
    return [{ ...first, untilMs: END }, ...made.events.slice(1)];
  };

  it('holds where every expectation and every invariant does', () => {
    const result = judge(short(DOSE), expecting(DOSE));
    expect(result).toMatchObject({ held: true, breaches: [] });
    expect(result.verdicts.map((verdict) => verdict.held)).toEqual([true]);
  });

  it('does not hold where an expectation does not', () => {
    expect(judge(short(DOSE), expecting(DOSE + 1))).toMatchObject({ held: false, breaches: [] });
  });

  it('does not hold where an invariant is broken, and shows the events around it', () => {
    const result = judge(short(DOSE + 1), []);
    expect(result.held).toBe(false);
    expect(result.breaches[0]).toMatchObject({
      invariant: 'a ledger holds only what its counters counted',
      sort: 'wrong',
      atMs: MINUTE + 10_510,
    });
    expect(result.breaches[0]?.around.map((event) => event.kind)).toContain('inner.ledger');
  });
});

describe('Invariants', () => {
  it('tells at most three breaches of each', () => {
    const trace = day(DOSE);
    for (let n = 0; n < 9; n++) trace.alert(3 * MINUTE, 'limit');
    const invariants = new Invariants();
    for (const event of trace.events) invariants.see(event);
    const early = invariants.end(END).filter((breach) => breach.invariant === 'no alert comes before its level');
    expect(early).toHaveLength(3);
  });

  it('refuses a trace that does not introduce its tools and workers', () => {
    const invariants = new Invariants();
    const [opening, , , worker] = day(DOSE).events;
    if (opening === undefined || worker === undefined) throw new Error('the day is empty');
    invariants.see(opening);
    invariants.see(worker);
    const stray = new DayTrace();
    stray.count(MINUTE, 1);
    const count = stray.events.at(-1);
    if (count === undefined) throw new Error('the day is empty');
    expect(() => invariants.see(count)).toThrow('has not introduced the tool breaker');
  });
});
