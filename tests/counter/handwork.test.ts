// TRG-4: what a counter counts against what truly ran, through the bench.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Bench } from '../../src/bench/bench.js';
import { HAND_CHARACTERS, type HandCharacter } from '../../src/scenario/day.js';
import { dayOf, HOUR, pair, run, SECOND, tool, worker } from '../rig/day.js';

const WINDOW_MS = 100;

interface Burst {
  readonly atMs: number;
  readonly forMs: number;
}

/** Bursts one after the other, the first a second into the day, each given as its rest before it and its length. */
function burstsOf(pieces: readonly (readonly [restMs: number, forMs: number])[]): Burst[] {
  const bursts: Burst[] = [];
  let atMs = SECOND;
  for (const [restMs, forMs] of pieces) {
    bursts.push({ atMs: atMs + restMs, forMs });
    atMs += restMs + forMs;
  }
  return bursts;
}

/** Trigger time that the counter gives each burst, in ms. */
function countedMs(hand: HandCharacter, bursts: readonly Burst[]): number[] {
  const events = bursts.map(({ atMs, forMs }) => run(atMs, 'saw', 'Edda', forMs));
  const bench = Bench.open(dayOf([tool('saw', 50, { hand })], [worker('Edda')], events), { trace: 'none' });
  let before = 0;
  return bursts.map(({ atMs, forMs }) => {
    bench.runTo(atMs + forMs + 550);
    const { triggerWindows } = bench.outcome().counters.saw!;
    const counted = (triggerWindows - before) * WINDOW_MS;
    before = triggerWindows;
    return counted;
  });
}

const hands = fc.constantFrom(...HAND_CHARACTERS);
const pieces = fc.array(fc.tuple(fc.integer({ min: 600, max: 3_000 }), fc.integer({ min: 300, max: 4_000 })), {
  minLength: 1,
  maxLength: 12,
});

test('bursts of at least 0.3 s with gaps of at least 0.6 s are each counted within a window at each end', () => {
  fc.assert(
    fc.property(hands, pieces, (hand, all) => {
      const bursts = burstsOf(all);
      const counted = countedMs(hand, bursts);
      for (const [index, { forMs }] of bursts.entries()) {
        expect(Math.abs(counted[index]! - forMs)).toBeLessThanOrEqual(2 * WINDOW_MS);
      }
    }),
    { numRuns: 60 },
  );
});

test('bursts that begin and end with a window are counted to the millisecond', () => {
  const aligned = pieces.map((all) =>
    all.map(([restMs, forMs]) => [restMs - (restMs % 100) + 100, forMs - (forMs % 100)] as const),
  );
  fc.assert(
    fc.property(hands, aligned, (hand, all) => {
      const bursts = burstsOf(all);
      expect(countedMs(hand, bursts)).toEqual(bursts.map(({ forMs }) => forMs));
    }),
    { numRuns: 30 },
  );
});

test.each(HAND_CHARACTERS)('500 bursts of 10 to 12 s a day with a %s tool are counted within 1 %%', (hand) => {
  const bursts = burstsOf(
    Array.from({ length: 500 }, (_, made) => [7_013 + 37 * (made % 29), 10_000 + 71 * (made % 28)]),
  );
  const trueMs = bursts.reduce((sum, { forMs }) => sum + forMs, 0);
  const sumMs = countedMs(hand, bursts).reduce((sum, ms) => sum + ms, 0);
  expect(Math.abs(sumMs - trueMs) / trueMs).toBeLessThanOrEqual(0.01);
});

test('a tool laid down running is counted as well', () => {
  const laidDown = { ...run(120 * SECOND, 'saw', 'Edda', 30 * SECOND), held: false };
  const events = [pair(0, 'saw', 'Edda'), laidDown];
  const { counters, shifts } = Bench.open(dayOf([tool('saw', 50)], [worker('Edda')], events, { untilMs: HOUR })).run();
  expect(counters.saw).toMatchObject({ triggerWindows: 300 });
  expect(shifts.Edda![0]!.dose).toBe(300 * WINDOW_MS * 2500);
});
