// Each fault does what scenarios/README.md says of it: in the air, at the sensor, at the cell. Power, clocks and attackers have
// tests of their own.
import { describe, expect, it } from 'vitest';
import type { TraceEvent } from '../../../src/trace/kinds.js';
import { air, cut, MINUTE_MS, ofKind, pair, run, SECOND_MS, smallDay, traceOf } from '../small-day.js';

const ALWAYS = { num: 1, den: 1 };
const FROM_MS = 2 * MINUTE_MS;
const FOR_MS = 3 * MINUTE_MS;

/** Edda works with the saw for eight minutes; the fault lies within. */
function worked(...faults: Parameters<typeof smallDay>[0]): readonly TraceEvent[] {
  return traceOf(smallDay([pair(0, 'saw', 'Edda'), run(MINUTE_MS, 'saw', 'Edda', 8 * MINUTE_MS), ...faults]));
}

/** Frames between the two that were sent in the time of the fault, and those sent at other times. */
function sent(events: readonly TraceEvent[]): { readonly during: Set<number>; readonly else: Set<number> } {
  const frames = [...ofKind(events, 'air.tally', 'saw'), ...ofKind(events, 'air.ack', 'Edda')];
  const isDuring = ({ at }: TraceEvent) => at >= FROM_MS && at < FROM_MS + FOR_MS;
  return {
    during: new Set(frames.filter(isDuring).map(({ n }) => n)),
    else: new Set(frames.filter((event) => !isDuring(event)).map(({ n }) => n)),
  };
}

describe('the air', () => {
  it('loses what it is to lose, until the fault is over', () => {
    const events = worked(air(FROM_MS, 'saw', 'Edda', { loss: ALWAYS, forMs: FOR_MS }));
    const lost = ofKind(events, 'air.lost').filter(({ reason }) => reason === 'loss');
    expect(new Set(lost.map(({ cause }) => cause))).toEqual(sent(events).during);
    expect(sent(events).during.size).toBeGreaterThan(30);
    expect(ofKind(events, 'fault.lifted', 'saw').map(({ at, what }) => [at, what])).toEqual([
      [FROM_MS + FOR_MS, 'air Edda'],
    ]);
  });

  it('changes bits of what it is to, and the devices drop every such frame', () => {
    const events = worked(air(FROM_MS, 'saw', 'Edda', { errors: ALWAYS, forMs: FOR_MS }));
    const damaged = ofKind(events, 'air.heard').filter(({ frame }) => frame === 'damaged');
    expect(new Set(damaged.map(({ cause }) => cause))).toEqual(sent(events).during);
    const refused = new Map(ofKind(events, 'air.refused').map((event) => [event.cause, event]));
    for (const { n } of damaged) expect(refused.get(n)).toMatchObject({ frame: 'damaged' });
  });

  it('doubles what it is to double, and takes as long as it is to take', () => {
    const events = worked(air(FROM_MS, 'saw', 'Edda', { duplicate: ALWAYS, delayMs: [777, 777], forMs: FOR_MS }));
    const { during, else: others } = sent(events);
    for (const [frames, copies, leastMs, mostMs] of [
      [during, 2, 777, 777],
      [others, 1, 2, 12],
    ] as const) {
      for (const n of frames) {
        const heard = ofKind(events, 'air.heard').filter(({ cause }) => cause === n);
        const delaysMs = heard.map(({ at }) => at - events[n - 1]!.at);
        expect(delaysMs).toHaveLength(copies);
        for (const delayMs of delaysMs) expect(delayMs).toBeGreaterThanOrEqual(leastMs);
        for (const delayMs of delaysMs) expect(delayMs).toBeLessThanOrEqual(mostMs);
      }
    }
  });

  it('is not cleared by the end of an earlier fault, and is by a step that says so', () => {
    const events = worked(
      air(FROM_MS, 'saw', 'Edda', { duplicate: ALWAYS, forMs: MINUTE_MS }),
      air(FROM_MS + 30 * SECOND_MS, 'saw', 'Edda', { loss: ALWAYS }),
      air(FROM_MS + FOR_MS, 'saw', 'Edda', {}),
    );
    const lost = ofKind(events, 'air.lost').filter(({ reason }) => reason === 'loss');
    expect(Math.min(...lost.map(({ at }) => at))).toBeGreaterThanOrEqual(FROM_MS + 30 * SECOND_MS);
    expect(Math.max(...lost.map(({ at }) => at))).toBeGreaterThan(FROM_MS + FOR_MS - 10 * SECOND_MS);
    expect(Math.max(...lost.map(({ at }) => at))).toBeLessThan(FROM_MS + FOR_MS);
    expect(ofKind(events, 'fault.lifted')).toEqual([]);
  });

  it('is that between the two only', () => {
    const events = traceOf(
      smallDay([
        pair(0, 'saw', 'Edda'),
        pair(20 * SECOND_MS, 'breaker', 'Edda'),
        air(MINUTE_MS, 'saw', 'Edda', { loss: ALWAYS }),
      ]),
    );
    expect(ofKind(events, 'air.lost', 'saw').length).toBeGreaterThan(5);
    expect(ofKind(events, 'air.lost', 'breaker')).toEqual([]);
  });
});

describe('the sensor', () => {
  const sensor = (atMs: number, forMs: number) =>
    ({ atMs, do: 'sensor', tool: 'saw', fault: 'silent', forMs }) as const;

  it('is good again afterwards', () => {
    const events = worked(sensor(FROM_MS, MINUTE_MS));
    const running = ofKind(events, 'inner.state', 'saw').filter(({ region }) => region === 'trigger');
    const from = running.filter(({ at }) => at > MINUTE_MS + SECOND_MS).map(({ at, state }) => [at, state]);
    // A window is 100 ms: the fault is seen as a stop half a second later (TRG-2), and the good sensor as a start (TRG-1).
    expect(from.slice(0, 2)).toEqual([
      [FROM_MS + 500, 'stopped'],
      [FROM_MS + MINUTE_MS + 200, 'running'],
    ]);
    expect(ofKind(events, 'fault.lifted').map(({ at, what }) => [at, what])).toEqual([[FROM_MS + MINUTE_MS, 'sensor']]);
  });

  it('is not made good by the end of an earlier fault', () => {
    const events = worked(sensor(FROM_MS, MINUTE_MS), sensor(FROM_MS + SECOND_MS, 2 * MINUTE_MS));
    expect(ofKind(events, 'fault.lifted').map(({ at }) => at)).toEqual([FROM_MS + SECOND_MS + 2 * MINUTE_MS]);
  });
});

describe('a page of the flash that goes bad', () => {
  it('costs nothing that was counted, and is in use no more (KEP-4)', () => {
    const spoil = { atMs: FROM_MS, do: 'flash', device: 'saw', page: 0 } as const;
    const at = FROM_MS + MINUTE_MS;
    const whole = worked(cut(at, 'saw', 'now', 1000));
    const spoilt = worked(spoil, cut(at, 'saw', 'now', 1000));
    expect(ofKind(spoilt, 'fault.page').map((event) => [event.at, event.by, event.page])).toEqual([
      [FROM_MS, 'saw', 0],
    ]);
    expect(ofKind(whole, 'flash.recovered', 'saw').at(-1)).toMatchObject({ at: at + 1000, retired: 0 });
    expect(ofKind(spoilt, 'flash.recovered', 'saw').at(-1)).toMatchObject({ at: at + 1000, retired: 1 });
    const ledger = ofKind(whole, 'inner.ledger').at(-1)!;
    expect(ofKind(spoilt, 'inner.ledger').at(-1)).toMatchObject({ at: ledger.at, total: ledger.total });
  });
});
