// The events that random days are made of, one arbitrary a verb: plain events at absolute times, so that a day shrinks by
// leaving events out.
import fc from 'fast-check';
import {
  type Attack,
  type CutMoment,
  type DayEvent,
  type DayVerb,
  HAND_CHARACTERS,
  type Ratio,
  SENSOR_FAULTS,
  type ToolSpec,
} from '../../scenario/day.js';

export const TOOLS = ['breaker', 'grinder', 'drill', 'saw', 'scabbler', 'rammer'] as const;
export const WORKERS = ['Edda', 'Bram', 'Ilse', 'Joris'] as const;

/** How many tools and workers a day has: the first so many of the names. */
export interface Cast {
  readonly tools: number;
  readonly workers: number;
}

export interface Times {
  /** Runs, and whatever may end one, lie on multiples of this. */
  readonly gridMs: number;
  /** No run of a day begins before it. */
  readonly workFromMs: number;
  /** Nothing begins after it. */
  readonly lastMs: number;
}

type EventOf<V extends DayVerb> = fc.Arbitrary<DayEvent & { readonly do: V }>;

/** Of AirFault, where a frame that arrives is whole. */
const NO_ERRORS: Ratio = { num: 0, den: 1 };

const toolOf = ({ tools }: Cast) => fc.constantFrom(...TOOLS.slice(0, tools));
const workerOf = ({ workers }: Cast) => fc.constantFrom(...WORKERS.slice(0, workers));
const anyTime = ({ lastMs }: Times) => fc.nat(lastMs);
const onGrid = (least: number, greatest: number, gridMs: number) =>
  fc.noBias(fc.integer({ min: Math.ceil(least / gridMs), max: Math.floor(greatest / gridMs) })).map((n) => n * gridMs);
const tenths = fc.oneof(
  { weight: 5, arbitrary: fc.integer({ min: 15, max: 250 }) },
  { weight: 1, arbitrary: fc.integer({ min: 5, max: 500 }) },
);

/** Mostly keyed in as it was measured; sometimes wrongly, sometimes not at all. */
export function toolSpec(name: string): fc.Arbitrary<ToolSpec> {
  const keyed = fc.oneof(
    { weight: 6, arbitrary: fc.constant('as measured' as const) },
    { weight: 1, arbitrary: fc.constant(null) },
    { weight: 1, arbitrary: tenths },
  );
  return fc
    .record({ hand: fc.constantFrom(...HAND_CHARACTERS), magnitudeTenths: tenths, keyed })
    .map(({ hand, magnitudeTenths, keyed }) => {
      return { name, hand, magnitudeTenths, keyedTenths: keyed === 'as measured' ? magnitudeTenths : keyed };
    });
}

/** Most runs are short, some last as long as they may. */
export function run(cast: Cast, times: Times, [least, greatest]: readonly [number, number]): EventOf<'run'> {
  const { gridMs, workFromMs, lastMs } = times;
  const brief = Math.min(greatest, least + 10_000);
  return fc.record({
    atMs: onGrid(workFromMs, lastMs - least, gridMs),
    do: fc.constant('run'),
    tool: toolOf(cast),
    by: workerOf(cast),
    forMs: fc.oneof(onGrid(least, brief, gridMs), onGrid(least, greatest, gridMs)),
    held: fc.oneof({ weight: 5, arbitrary: fc.constant(true) }, { weight: 1, arbitrary: fc.constant(false) }),
  });
}

export function set(cast: Cast, times: Times): EventOf<'set'> {
  return fc.record({ atMs: anyTime(times), do: fc.constant('set'), tool: toolOf(cast), toTenths: tenths });
}

export function pair(cast: Cast, times: Times): EventOf<'pair'> {
  return fc.record({ atMs: anyTime(times), do: fc.constant('pair'), tool: toolOf(cast), with: workerOf(cast) });
}

/** Somebody goes, sometimes with a tool, sometimes with company. */
export function leave(cast: Cast, { gridMs, lastMs }: Times): EventOf<'leave'> {
  const someone = fc.oneof({ weight: 2, arbitrary: workerOf(cast) }, { weight: 1, arbitrary: toolOf(cast) });
  return fc.record({
    atMs: onGrid(0, lastMs, gridMs),
    do: fc.constant('leave'),
    who: fc.uniqueArray(someone, { minLength: 1, maxLength: 3 }),
    forMs: fc.option(onGrid(1000, 3_600_000, gridMs), { freq: 4 }),
  });
}

const certain = fc.constantFrom<Ratio>({ num: 0, den: 1 }, { num: 1, den: 1 });
const ratio = fc
  .integer({ min: 2, max: 20 })
  .chain((den) => fc.record({ num: fc.integer({ min: 1, max: den - 1 }), den: fc.constant(den) }));

export function airFault(cast: Cast, times: Times): EventOf<'air'> {
  return fc.record({
    atMs: anyTime(times),
    do: fc.constant('air'),
    tool: toolOf(cast),
    worker: workerOf(cast),
    forMs: fc.option(fc.integer({ min: 1000, max: 2 * 3_600_000 }), { freq: 4 }),
    loss: fc.oneof({ weight: 2, arbitrary: ratio }, { weight: 1, arbitrary: certain }),
    duplicate: fc.oneof(ratio, certain),
    errors: fc.constant(NO_ERRORS),
    delayMs: fc
      .tuple(fc.integer({ min: 1, max: 100 }), fc.oneof(fc.nat(50), fc.nat(8000)))
      .map(([from, span]) => [from, from + span] as const),
  });
}

/** Frames are lost or doubled, and no later than usual. */
export function airLoss(cast: Cast, times: Times): EventOf<'air'> {
  return airFault(cast, times).map((event) => ({ ...event, delayMs: [2, 12] }));
}

/** Frames take their time, and overtake each other. */
export function airLate(cast: Cast, times: Times): EventOf<'air'> {
  return airFault(cast, times).map((event) => ({ ...event, loss: NO_ERRORS }));
}

/** As airFault, with bits that change on the way. */
export function airErrors(cast: Cast, times: Times): EventOf<'air'> {
  return fc.tuple(airFault(cast, times), ratio).map(([event, errors]) => ({ ...event, errors }));
}

const deviceOf = (cast: Cast) => fc.oneof(toolOf(cast), workerOf(cast));
/** Half of all failures are short, so that another may come during the recovery. */
const outage = fc.oneof(fc.integer({ min: 1, max: 2000 }), fc.integer({ min: 1000, max: 600_000 }));

/** Mostly within a record or a page, now and then after several. */
export function cut(cast: Cast, times: Times, when: CutMoment): EventOf<'cut'> {
  const bytes = fc.oneof(fc.nat(300), fc.nat(5000));
  return fc
    .record({
      atMs: anyTime(times),
      do: fc.constant('cut'),
      device: deviceOf(cast),
      when: fc.constant(when),
      afterBytes: bytes,
      forMs: outage,
    })
    .map((event) => ({ ...event, afterBytes: when === 'write' ? event.afterBytes : 0 }));
}

/** Mostly so little that the device notices. */
export function cell(cast: Cast, times: Times): EventOf<'cell'> {
  const toPercent = fc.oneof({ weight: 3, arbitrary: fc.nat(15) }, { weight: 1, arbitrary: fc.nat(100) });
  return fc.record({ atMs: anyTime(times), do: fc.constant('cell'), device: deviceOf(cast), toPercent });
}

export function exchange(cast: Cast, times: Times): EventOf<'exchange'> {
  return fc.record({ atMs: anyTime(times), do: fc.constant('exchange'), device: deviceOf(cast), forMs: outage });
}

/** Within ±500 ppm as a rule, up to ±2 % as a fault (CLK-1). */
export function clock(cast: Cast, times: Times): EventOf<'clock'> {
  return fc.record({
    atMs: anyTime(times),
    do: fc.constant('clock'),
    device: deviceOf(cast),
    ppm: fc.oneof(fc.integer({ min: -500, max: 500 }), fc.integer({ min: -20_000, max: 20_000 })),
    driftPpm: fc.oneof(fc.constant(0), fc.integer({ min: -1000, max: 1000 })),
    forMs: fc.option(fc.integer({ min: 1000, max: 2 * 3_600_000 }), { freq: 4 }),
  });
}

export function flashPage(cast: Cast, times: Times): EventOf<'flash'> {
  return fc.record({ atMs: anyTime(times), do: fc.constant('flash'), device: deviceOf(cast), page: fc.nat(15) });
}

export function attack(cast: Cast, times: Times, how: Attack): EventOf<'attack'> {
  return fc
    .record({
      atMs: anyTime(times),
      do: fc.constant('attack'),
      how: fc.constant(how),
      tool: toolOf(cast),
      worker: workerOf(cast),
      everyMs: fc.oneof(fc.integer({ min: 50, max: 1000 }), fc.integer({ min: 1000, max: 60_000 })),
      forMs: fc.integer({ min: 1000, max: 600_000 }),
    })
    .map((event) => ({ ...event, everyMs: how === 'middle' ? 0 : event.everyMs }));
}

export function sensor(cast: Cast, times: Times): EventOf<'sensor'> {
  return fc.record({
    atMs: anyTime(times),
    do: fc.constant('sensor'),
    tool: toolOf(cast),
    fault: fc.constantFrom(...SENSOR_FAULTS),
    forMs: fc.integer({ min: 100, max: 600_000 }),
  });
}

/** Whatever else a person or the sensor may do, in any order and at any moment. */
export function gesture(cast: Cast, times: Times): fc.Arbitrary<DayEvent> {
  const atMs = anyTime(times);
  const tool = toolOf(cast);
  const worker = workerOf(cast);
  const forMs = fc.oneof(fc.integer({ min: 1, max: 5000 }), fc.constantFrom(1999, 2000, 2999, 3000));
  const detents = fc.integer({ min: -30, max: 30 }).filter((count) => count !== 0);
  return fc.oneof(
    fc.record({ atMs, do: fc.constant('press'), tool, forMs }),
    fc.record({ atMs, do: fc.constant('turn'), tool, detents, everyMs: fc.integer({ min: 10, max: 300 }) }),
    fc.record({ atMs, do: fc.constant('touch'), tool, with: worker }),
    fc.record({ atMs, do: fc.constant('tap'), worker, forMs }),
    fc.record({ atMs, do: fc.constant('close'), worker }),
    fc.record({ atMs, do: fc.constant('readout'), device: worker }),
    fc.record({ atMs, do: fc.constant('return'), who: fc.uniqueArray(worker, { minLength: 1, maxLength: 2 }) }),
    sensor(cast, times),
    run(cast, times, [1, 2000]),
    set(cast, times),
    pair(cast, times),
  ) as fc.Arbitrary<DayEvent>;
}
