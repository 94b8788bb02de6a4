// Random working days with faults, within what the devices promise to survive: nothing lasts into the quiet end of a day, in
// which everyone is there, powered and heard, so that what is still pending then is an error.
import fc from 'fast-check';
import { REGIME_IDS } from '../../exposure/regimes.js';
import type { Day, DayEvent, WorkerSpec } from '../../scenario/day.js';
import {
  airErrors,
  airLate,
  airLoss,
  attack,
  type Cast,
  cell,
  clock,
  cut,
  exchange,
  flashPage,
  gesture,
  leave,
  pair,
  run,
  sensor,
  set,
  type Times,
  TOOLS,
  toolSpec,
  WORKERS,
} from './events.js';
import { type Feature, type Swarm, swarm } from './swarm.js';

const MINUTE_MS = 60_000;
/** The quiet end: all that is asked after the faults has been over for 120 s then, and a tally at rest may take 60 s more. */
const QUIET_MS = 6 * MINUTE_MS;
/** A cell that is exchanged before the quiet end is back in by then. */
const EXCHANGE_MS = 10_000;
const PAIR_EVERY_MS = 20_000;
/** TRG-4 speaks of bursts of 0.3 s or more, with gaps of 0.6 s or more. */
const LEAST_RUN_MS = 300;
const LEAST_GAP_MS = 600;
const LONGEST_RUN_MS = 3 * MINUTE_MS;
const MOST_BURSTS = 30;
/** A counter fills its flash in three or four hours of trigger time. */
const WORN_MS = 6 * 60 * MINUTE_MS;
/** Of 20 minutes at least: more than a worn day holds. */
const MOST_LONG_RUNS = 18;
/** A pairing is over by then (PAI-1). */
const PAIRING_MS = 30_000;

export interface FaultyDayOptions {
  /** Length of a day, ms, half an hour at least. Default two hours. */
  readonly untilMs?: number;
}

export function faultyDay({ untilMs = 120 * MINUTE_MS }: FaultyDayOptions = {}): fc.Arbitrary<Day> {
  const cast = fc.record({ tools: fc.integer({ min: 1, max: 4 }), workers: fc.integer({ min: 1, max: 3 }) });
  return fc
    .tuple(cast, swarm)
    .chain(([people, features]) => dayOf(people, features, untilMs, (times) => bursts(people, times)));
}

/**
 * One tool runs all day, so that its counter writes its flash full and erases pages (KEP-1, KEP-5), and so does the wearable of
 * whoever runs it; power fails in some of these erases, and cells that are run low give out.
 */
export function wornDay(): fc.Arbitrary<Day> {
  const cast = fc.record({ tools: fc.constant(1), workers: fc.integer({ min: 1, max: 2 }) });
  return fc.tuple(cast, swarm).chain(([people, features]) => {
    const worst = new Set<Feature>([...features, 'power fails in an erase', 'cells run low']);
    return dayOf(people, worst, WORN_MS, (times) => longRuns(people, times));
  });
}

/** A faulty day on which somebody sits in the middle of each pairing (PAI-2). */
export function middleDay(): fc.Arbitrary<Day> {
  return faultyDay().map((day) => {
    const middles = day.events.flatMap((event): readonly DayEvent[] => {
      if (event.do !== 'pair') return [];
      const { atMs, tool, with: worker } = event;
      return [{ atMs, do: 'attack', how: 'middle', tool, worker, everyMs: 0, forMs: PAIRING_MS }];
    });
    return { ...day, events: [...middles, ...day.events].sort((a, b) => a.atMs - b.atMs) };
  });
}

/** The sorts of random days, by name. */
export const DAY_SORTS = { faulty: faultyDay(), worn: wornDay(), middle: middleDay() } as const;
export type DaySort = keyof typeof DAY_SORTS;

type Runs = (times: Times) => fc.Arbitrary<readonly Run[]>;

function dayOf(cast: Cast, features: Swarm, untilMs: number, runsOf: Runs): fc.Arbitrary<Day> {
  const times: Times = { gridMs: 1, workFromMs: 0, lastMs: untilMs - QUIET_MS };
  const most = (feature: Feature, greatest: number) => (features.has(feature) ? greatest : 0);
  const faults: readonly fc.Arbitrary<readonly DayEvent[]>[] = [
    some(set(cast, times), most('magnitudes are keyed in', 3)),
    some(pair(cast, times), most('tools change hands', 4)),
    some(leave(cast, times), most('people leave', 3)),
    some(gesture(cast, times), most('gestures', 20)),
    some(sensor(cast, times), most('sensor faults', 4)),
    some(airLoss(cast, times), most('frames are lost', 4)),
    some(airLate(cast, times), most('frames are late', 3)),
    some(airErrors(cast, times), most('bits flip', 3)),
    some(cut(cast, times, 'now'), most('power fails', 6)),
    some(cut(cast, times, 'write'), most('power fails in a write', 6)),
    some(cut(cast, times, 'erase'), most('power fails in an erase', 3)),
    some(cell(cast, times), most('cells run low', 3)),
    some(exchange(cast, times), most('cells are exchanged', 3)),
    some(clock(cast, times), most('clocks are wrong', 4)),
    some(flashPage(cast, times), most('pages go bad', 4)),
    some(attack(cast, times, 'replay'), most('frames are replayed', 3)),
    some(attack(cast, times, 'alter'), most('frames are altered', 3)),
    some(attack(cast, times, 'forge'), most('frames are forged', 3)),
    some(attack(cast, times, 'flood'), most('floods', 3)),
    some(attack(cast, times, 'middle'), most('somebody in the middle', 2)),
  ];
  return fc
    .record({
      seed: fc.nat(2 ** 32 - 1),
      fromMs: fc.nat(86_399_999),
      regime: fc.constantFrom(...REGIME_IDS),
      tools: fc.tuple(...TOOLS.slice(0, cast.tools).map(toolSpec)),
      workers: fc.tuple(...WORKERS.slice(0, cast.workers).map(workerSpec)),
      owners: fc.tuple(...TOOLS.slice(0, cast.tools).map(() => fc.option(fc.nat(cast.workers - 1), { freq: 8 }))),
      runs: runsOf(times),
      faults: fc.tuple(...faults),
    })
    .map(({ seed, fromMs, regime, tools, workers, owners, runs, faults: ordered }) => {
      const events = [...morning(owners), ...runs, ...ordered.flat()];
      const ended = events.map((event) => endedBy(event, times.lastMs));
      const all = [...ended, ...evening(ended, times.lastMs)].sort((a, b) => a.atMs - b.atMs);
      return { fromMs, untilMs, seed, regime, tools, workers, events: all };
    });
}

/** One of them at least, unless there may be none. */
function some<E extends DayEvent>(event: fc.Arbitrary<E>, greatest: number): fc.Arbitrary<E[]> {
  return fc.array(event, { minLength: Math.min(1, greatest), maxLength: greatest, size: 'max' });
}

function workerSpec(name: string): fc.Arbitrary<WorkerSpec> {
  return fc
    .record({ noticePoints: fc.integer({ min: 1, max: 100 }), sitePoints: fc.option(fc.integer({ min: 1, max: 300 })) })
    .map((points) => ({ name, ...points }));
}

/** Who holds which tool when the day begins. */
function morning(owners: readonly (number | null)[]): readonly DayEvent[] {
  return owners.flatMap((worker, tool): readonly DayEvent[] => {
    if (worker === null) return [];
    return [{ atMs: (tool + 1) * PAIR_EVERY_MS, do: 'pair', tool: TOOLS[tool]!, with: WORKERS[worker]! }];
  });
}

/** Whoever has left comes back, and a cell that was not full is exchanged. */
function evening(events: readonly DayEvent[], lastMs: number): readonly DayEvent[] {
  const away = events.flatMap((event) => (event.do === 'leave' ? event.who : []));
  const poor = new Set(events.flatMap((event) => (event.do === 'cell' ? [event.device] : [])));
  const back: readonly DayEvent[] = away.length === 0 ? [] : [{ atMs: lastMs, do: 'return', who: [...new Set(away)] }];
  const exchanges = [...poor].map((device): DayEvent => ({ atMs: lastMs, do: 'exchange', device, forMs: EXCHANGE_MS }));
  return [...back, ...exchanges];
}

type Run = DayEvent & { readonly do: 'run' };

function bursts(cast: Cast, times: Times): fc.Arbitrary<readonly Run[]> {
  return some(run(cast, times, [LEAST_RUN_MS, LONGEST_RUN_MS]), MOST_BURSTS).map(withGaps);
}

/** The first tool, again and again, with pauses that are short beside its runs. */
function longRuns(cast: Cast, { lastMs }: Times): fc.Arbitrary<readonly Run[]> {
  const turn = fc.record({
    forMs: fc.integer({ min: 20 * MINUTE_MS, max: 60 * MINUTE_MS }),
    gapMs: fc.integer({ min: LEAST_GAP_MS, max: 2 * MINUTE_MS }),
    by: fc.constantFrom(...WORKERS.slice(0, cast.workers)),
  });
  return fc.array(turn, { minLength: MOST_LONG_RUNS, maxLength: MOST_LONG_RUNS }).map((turns) => {
    const runs: Run[] = [];
    let atMs = MINUTE_MS;
    for (const { forMs, gapMs, by } of turns) {
      if (atMs + LEAST_RUN_MS <= lastMs) runs.push({ atMs, do: 'run', tool: TOOLS[0], by, forMs, held: true });
      atMs += forMs + gapMs;
    }
    return runs;
  });
}

/** Leaves out the runs that would begin while the same tool runs, or too soon after it has. */
function withGaps(runs: readonly Run[]): readonly Run[] {
  const freeFromMs = new Map<string, number>();
  return [...runs]
    .sort((a, b) => a.atMs - b.atMs)
    .filter(({ atMs, tool, forMs }) => {
      if (atMs < (freeFromMs.get(tool) ?? 0)) return false;
      freeFromMs.set(tool, atMs + forMs + LEAST_GAP_MS);
      return true;
    });
}

/** Nothing lasts into the quiet end of the day. */
function endedBy(event: DayEvent, lastMs: number): DayEvent {
  if (!('forMs' in event) || event.do === 'press' || event.do === 'tap') return event;
  const restMs = Math.max(1, lastMs - event.atMs);
  return { ...event, forMs: Math.min(event.forMs ?? restMs, restMs) } as DayEvent;
}
