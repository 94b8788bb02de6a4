// WEA-1 to WEA-3, TAL-3, PAI-3, PAI-6 over whole days on the bench: who is charged what, when the alerts fall, how shifts end.
import { expect, test } from 'vitest';
import { Bench } from '../../src/bench/bench.js';
import type { Day, DayEvent } from '../../src/scenario/day.js';
import type { EventOf, Kind, TraceEvent } from '../../src/trace/kinds.js';
import { dayOf, HOUR, MINUTE, pair, run, SECOND, tool, worker } from '../rig/day.js';

const BREAKER = tool('breaker', 120);
const EDDA = worker('Edda');
const BRAM = worker('Bram');
/** u of a millisecond at 12.0 m/s². */
const BREAKER_MS = 14_400;

function traceOf(day: Day): readonly TraceEvent[] {
  const bench = Bench.open(day);
  bench.run();
  return bench.events;
}

function ofKind<K extends Kind>(events: readonly TraceEvent[], kind: K, by: string): EventOf<K>[] {
  return events.filter((event) => event.kind === kind && event.by === by) as unknown as EventOf<K>[];
}

function firstAlerts(events: readonly TraceEvent[], by: string): { level: string; at: number }[] {
  return ofKind(events, 'shown.alert', by)
    .filter(({ again }) => again === 0)
    .map(({ level, at }) => ({ level, at }));
}

function doses(day: Day, by: string): number[] {
  return Bench.open(day, { trace: 'none' })
    .run()
    .shifts[by]!.map(({ dose }) => dose);
}

test('WEA-2: each alert falls within 6 s of the true dose, in range', () => {
  const startMs = 10 * MINUTE;
  const day = dayOf([BREAKER], [EDDA], [pair(0, 'breaker', 'Edda'), run(startMs, 'breaker', 'Edda', 85 * MINUTE)]);
  const alerts = firstAlerts(traceOf(day), 'Edda');
  // 12.0 m/s² make 288 points an hour: 80 points after 1000 s, 100 after 1250 s, 400 after 5000 s.
  const dueMs = [1_000, 1_250, 5_000].map((seconds) => startMs + seconds * SECOND);
  expect(alerts.map(({ level }) => level)).toEqual(['notice', 'action', 'limit']);
  for (const [index, { at }] of alerts.entries()) {
    expect(at).toBeGreaterThanOrEqual(dueMs[index]!);
    expect(at).toBeLessThanOrEqual(dueMs[index]! + 6 * SECOND);
  }
});

test.each([1, 2, 3])('WEA-2: %i tallies lost in a row delay an alert by no more than 5 s each', (lost) => {
  const startMs = 10 * MINUTE;
  const dueMs = startMs + 1_250 * SECOND;
  const loss = {
    do: 'air',
    tool: 'breaker',
    worker: 'Edda',
    loss: { num: 1, den: 1 },
    duplicate: { num: 0, den: 1 },
    errors: { num: 0, den: 1 },
  } as const;
  const fault: DayEvent = { atMs: dueMs - 100, ...loss, delayMs: [2, 12], forMs: lost * 5 * SECOND };
  const events = [pair(0, 'breaker', 'Edda'), run(startMs, 'breaker', 'Edda', 30 * MINUTE), fault];
  const trace = traceOf(dayOf([BREAKER], [EDDA], events));
  const { at } = firstAlerts(trace, 'Edda')[1]!;
  const lostTallies = ofKind(trace, 'air.lost', 'breaker').filter(({ frame }) => frame === 'tally');
  expect(lostTallies).toHaveLength(lost);
  expect(at).toBeGreaterThan(dueMs + 5 * (lost - 1) * SECOND);
  expect(at).toBeLessThanOrEqual(dueMs + (6 + 5 * lost) * SECOND);
});

test('WEA-3: midnight gives nobody new points: the same work by night and by day is the same but for the clock', () => {
  const events = [0, 1, 2, 3].map((hour) => run(hour * HOUR + MINUTE, 'breaker', 'Edda', 4 * MINUTE));
  const day = dayOf([BREAKER], [EDDA], [pair(0, 'breaker', 'Edda'), ...events], { untilMs: 4 * HOUR });
  const byDay = traceOf({ ...day, fromMs: 8 * HOUR });
  const byNight = traceOf({ ...day, fromMs: 22 * HOUR });
  expect(byNight.slice(1)).toEqual(byDay.slice(1));
  expect(ofKind(byNight, 'inner.shift', 'Edda').map(({ what }) => what)).toEqual(['opened']);
  expect(ofKind(byNight, 'inner.ledger', 'Edda').at(-1)!.total).toBe(4 * 4 * MINUTE * BREAKER_MS);
});

test('WEA-3: 6 idle hours close the shift and the sessions; the next pairing opens the next ones', () => {
  const events = [
    pair(0, 'breaker', 'Edda'),
    run(10 * MINUTE, 'breaker', 'Edda', 5 * MINUTE),
    pair(9 * HOUR, 'breaker', 'Edda'),
    run(9 * HOUR + 10 * MINUTE, 'breaker', 'Edda', 2 * MINUTE),
  ];
  const day = dayOf([BREAKER], [EDDA], events);
  expect(doses(day, 'Edda')).toEqual([5 * MINUTE * BREAKER_MS, 2 * MINUTE * BREAKER_MS]);
  const closed = ofKind(traceOf(day), 'inner.shift', 'Edda').find(({ what }) => what === 'closed');
  expect(closed!.at).toBeGreaterThanOrEqual(15 * MINUTE + 6 * HOUR);
  expect(closed!.at).toBeLessThanOrEqual(15 * MINUTE + 6 * HOUR + SECOND);
});

test.each(['close', 'readout'] as const)(
  'PAI-6: a shift ended by %s ends the session of its tool within a minute',
  (end) => {
    const events: DayEvent[] = [
      pair(0, 'breaker', 'Edda'),
      run(10 * MINUTE, 'breaker', 'Edda', 5 * MINUTE),
      end === 'close' ? { atMs: HOUR, do: end, worker: 'Edda' } : { atMs: HOUR, do: end, device: 'Edda' },
      run(2 * HOUR, 'breaker', 'Edda', 7 * MINUTE),
    ];
    const day = dayOf([BREAKER], [EDDA], events);
    expect(doses(day, 'Edda')).toEqual([5 * MINUTE * BREAKER_MS]);
    const trace = traceOf(day);
    const sealed = ofKind(trace, 'inner.session', 'breaker').find(({ what }) => what === 'sealed');
    expect(sealed!.at).toBeLessThanOrEqual(HOUR + 64 * SECOND);
    expect(ofKind(trace, 'inner.count', 'breaker').at(-1)).toMatchObject({ session: 0, dose: 7 * MINUTE * BREAKER_MS });
  },
);

test('PAI-3, WEA-3: a handover while the first wearable is away overnight: late dose goes into the old shift', () => {
  const events: DayEvent[] = [
    pair(0, 'breaker', 'Edda'),
    run(10 * MINUTE, 'breaker', 'Edda', 5 * MINUTE),
    { atMs: HOUR - SECOND, do: 'leave', who: ['Edda'], forMs: 30 * HOUR },
    run(HOUR, 'breaker', 'Bram', MINUTE),
    pair(2 * HOUR, 'breaker', 'Bram'),
    run(3 * HOUR, 'breaker', 'Bram', 3 * MINUTE),
    pair(32 * HOUR, 'breaker', 'Edda'),
    run(33 * HOUR, 'breaker', 'Edda', 2 * MINUTE),
  ];
  const day = dayOf([BREAKER], [EDDA, BRAM], events, { untilMs: 34 * HOUR });
  // What Bram ran before he paired counts for the session that was open: Edda's, whose wearable was away.
  expect(doses(day, 'Edda')).toEqual([6 * MINUTE * BREAKER_MS, 2 * MINUTE * BREAKER_MS]);
  expect(doses(day, 'Bram')).toEqual([3 * MINUTE * BREAKER_MS]);
});

test('TAL-3: losses, doubles and delays of a minute over a whole day change no dose in the end', () => {
  const work = Array.from({ length: 40 }, (_, made) => run((10 + 8 * made) * MINUTE, 'breaker', 'Edda', 70 * SECOND));
  const half = { num: 1, den: 2 };
  const air = { loss: half, duplicate: half, errors: { num: 0, den: 1 }, delayMs: [2, 60_000] } as const;
  const fault: DayEvent = { atMs: 5 * MINUTE, do: 'air', tool: 'breaker', worker: 'Edda', ...air, forMs: 6 * HOUR };
  const calm = dayOf([BREAKER], [EDDA], [pair(0, 'breaker', 'Edda'), ...work]);
  const stormy = { ...calm, events: [calm.events[0]!, fault, ...calm.events.slice(1)] };
  expect(doses(stormy, 'Edda')).toEqual(doses(calm, 'Edda'));
  expect(doses(calm, 'Edda')).toEqual([40 * 70 * SECOND * BREAKER_MS]);
});
