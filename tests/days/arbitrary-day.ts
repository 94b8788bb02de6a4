// Working days for property tests: plain events at absolute times, so that a day shrinks by leaving events out.
// An orderly day asks of the devices only what they promise to make up for, and ends with some minutes in which nobody works,
// everyone is there and the air is clear. A rough one has everything else in it too, at any moment, and no such end.
import fc from 'fast-check';
import { REGIME_IDS } from '../../src/exposure/regimes.js';
import type { Day, DayEvent, WorkerSpec } from '../../src/scenario/day.js';
import { airFault, type Cast, gesture, leave, pair, run, set, TOOLS, toolSpec, WORKERS } from './arbitrary-events.js';

export interface DayOptions {
  /** Runs, and whatever may end one, begin and end on windows of 100 ms. Default false. */
  readonly aligned?: boolean;
  /** Default false: orderly. */
  readonly rough?: boolean;
  /** Length of the day, ms. Default 8 h. */
  readonly untilMs?: number;
  /** Bounds of a run's length, ms. Default 300 ms (TRG-4) to 6 min. */
  readonly runMs?: readonly [least: number, greatest: number];
  /** Most runs of a day; half as many are usual. Default 90. */
  readonly runs?: number;
  /** During the day magnitudes are keyed in, tools are paired again, people leave. Otherwise work begins after the pairings. */
  readonly changes?: boolean;
}

const HOUR_MS = 3_600_000;
/** The quiet end of an orderly day. */
export const SETTLE_MS = 180_000;
/** Tools are paired in the morning one after the other; each pairing takes some seconds. */
const PAIR_EVERY_MS = 20_000;
/** By then the last of them has come to an end, one way or the other. */
const MORNING_MS = 180_000;
/** TRG-4 speaks of bursts with gaps of at least this. */
const LEAST_GAP_MS = 600;

export function arbitraryDay(options: DayOptions = {}): fc.Arbitrary<Day> {
  return fc
    .record({ tools: fc.integer({ min: 3, max: 6 }), workers: fc.integer({ min: 1, max: 4 }) })
    .chain((cast) => dayOf(cast, options));
}

function dayOf(cast: Cast, options: DayOptions): fc.Arbitrary<Day> {
  const { aligned = false, rough = false, untilMs = 8 * HOUR_MS, runMs = [300, 6 * 60_000], runs = 90 } = options;
  const { changes = true } = options;
  const times = {
    gridMs: aligned ? 100 : 1,
    workFromMs: changes ? 0 : MORNING_MS,
    lastMs: rough ? untilMs - 1 : untilMs - SETTLE_MS,
  };
  const some = <E>(event: fc.Arbitrary<E>, most: number) => fc.array(event, { maxLength: most, size: 'max' });
  return fc
    .record({
      seed: fc.nat(2 ** 32 - 1),
      fromMs: fc.nat(86_399_999),
      regime: fc.constantFrom(...REGIME_IDS),
      tools: fc.tuple(...TOOLS.slice(0, cast.tools).map(toolSpec)),
      noticePoints: fc.array(fc.integer({ min: 1, max: 200 }), { minLength: cast.workers, maxLength: cast.workers }),
      owners: fc.tuple(...Array.from({ length: cast.tools }, () => owner(cast))),
      runs: some(run(cast, times, runMs), runs),
      air: some(airFault(cast, times), 5),
      sets: some(set(cast, times), changes ? 4 : 0),
      pairs: some(pair(cast, times), changes ? 4 : 0),
      leaves: some(leave(cast, times), changes ? 3 : 0),
      gestures: some(gesture(cast, times), rough ? 60 : 0),
    })
    .map(({ seed, fromMs, regime, tools, noticePoints, owners, runs, air, sets, pairs, leaves, gestures }) => {
      const workers: readonly WorkerSpec[] = noticePoints.map((points, index) => ({
        name: WORKERS[index]!,
        noticePoints: points,
        sitePoints: null,
      }));
      const work = rough ? runs : withGaps(runs);
      const events = [...morning(owners), ...work, ...air, ...sets, ...pairs, ...leaves, ...gestures].sort(byTime);
      const ended = rough ? events : events.map((event) => endedBy(event, times.lastMs));
      return { fromMs, untilMs, seed, regime, tools, workers, events: ended };
    });
}

/** Index of the worker with whom a tool is paired in the morning, null for nobody. */
function owner({ workers }: Cast): fc.Arbitrary<number | null> {
  return fc.option(fc.nat(workers - 1), { freq: 8 });
}

function morning(owners: readonly (number | null)[]): readonly DayEvent[] {
  return owners.flatMap((worker, tool): readonly DayEvent[] => {
    if (worker === null) return [];
    return [{ atMs: (tool + 1) * PAIR_EVERY_MS, do: 'pair', tool: TOOLS[tool]!, with: WORKERS[worker]! }];
  });
}

function byTime(a: DayEvent, b: DayEvent): number {
  return a.atMs - b.atMs;
}

type Run = DayEvent & { readonly do: 'run' };

/** Leaves out the runs that would begin while the same tool runs, or too soon after it has. */
function withGaps(runs: readonly Run[]): readonly Run[] {
  const freeFromMs = new Map<string, number>();
  return [...runs].sort(byTime).filter(({ atMs, tool, forMs }) => {
    if (atMs < (freeFromMs.get(tool) ?? 0)) return false;
    freeFromMs.set(tool, atMs + forMs + LEAST_GAP_MS);
    return true;
  });
}

/** Nothing lasts into the quiet end of the day. */
function endedBy(event: DayEvent, lastMs: number): DayEvent {
  const restMs = Math.max(1, lastMs - event.atMs);
  switch (event.do) {
    case 'run':
      return { ...event, forMs: Math.min(event.forMs, restMs) };
    case 'air':
    case 'leave':
      return { ...event, forMs: Math.min(event.forMs ?? restMs, restMs) };
    default:
      return event;
  }
}
