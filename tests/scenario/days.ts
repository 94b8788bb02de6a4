// Arbitrary valid days, for laws of the language: every verb, times to the millisecond, names that need quotes.
import fc from 'fast-check';
import { REGIME_IDS } from '../../src/exposure/regimes.js';
import {
  ATTACKS,
  CUT_MOMENTS,
  type Day,
  type DayEvent,
  HAND_CHARACTERS,
  SAMPLED_VIBRATIONS,
  SENSOR_FAULTS,
} from '../../src/scenario/day.js';
import { DAY_MS, MAX_SPAN_MS } from '../../src/scenario/fields/clock.js';

const NASTY_NAMES = [
  'null',
  'true',
  'no',
  '~',
  '12',
  '1e3',
  '0x10',
  '.inf',
  '-',
  '---',
  '$away',
  '#1',
  '&a',
  '*a',
  '!x',
  '%',
  '@',
  '"',
  "'",
  'a: b',
  '[x]',
  '{x}',
  'a, b',
  'Änne',
  '泥瓦匠',
  '07:10',
  'day 2 06:00',
  'end',
  '__proto__',
  'constructor',
  'a#b',
  'a #b',
  '?',
  '<<',
  '=',
  '|',
  '>',
  '\\',
];

const word = fc.stringMatching(/^[\p{L}\p{N}\p{P}\p{S}]{1,12}$/u);
const name = fc
  .oneof(
    fc.constantFrom(...NASTY_NAMES),
    word,
    fc.tuple(word, word).map((words) => words.join(' ')),
  )
  .filter((text) => text !== 'bench' && text.length <= 40);

const tenths = fc.integer({ min: 5, max: 500 });
const span = fc.integer({ min: 1, max: MAX_SPAN_MS });
const maybeSpan = fc.option(span, { nil: null });
const ratio = fc
  .tuple(fc.nat(1_000_000), fc.integer({ min: 1, max: 1_000_000 }))
  .map(([a, b]) => ({ num: Math.min(a, b), den: b }));
const delayMs = fc
  .tuple(fc.nat(600_000), fc.nat(600_000))
  .map(([a, b]): [number, number] => [Math.min(a, b), Math.max(a, b)]);
const airFault = { loss: ratio, duplicate: ratio, errors: ratio, delayMs };
const cutMoment = { when: fc.constantFrom(...CUT_MOMENTS), afterBytes: fc.nat(65_536) };
const rate = { ppm: fc.integer({ min: -20_000, max: 20_000 }), driftPpm: fc.integer({ min: -1000, max: 1000 }) };
const SENDERS = ATTACKS.filter((how) => how !== 'middle');
const pause = fc.integer({ min: 10, max: MAX_SPAN_MS });
/** 30 attackers of a day stay below the most frames of one. */
const brief = fc.integer({ min: 1, max: 30_000 });
const detents = fc.oneof(fc.integer({ min: -500, max: -1 }), fc.integer({ min: 1, max: 500 }));

function eventAmong(tools: readonly string[], workers: readonly string[], untilMs: number): fc.Arbitrary<DayEvent> {
  const atMs = fc.integer({ min: 0, max: untilMs - 1 });
  const tool = fc.constantFrom(...tools);
  const worker = fc.constantFrom(...workers);
  const device = fc.oneof(tool, worker);
  const who = fc.uniqueArray(device, { minLength: 1, maxLength: 3 });
  const verb = <D extends string>(word: D) => ({ atMs, do: fc.constant(word) });
  return fc.oneof(
    fc.record({ ...verb('run'), tool, by: worker, forMs: span, held: fc.boolean() }),
    fc.record({ ...verb('carry'), tool, forMs: brief }),
    fc.record({ ...verb('set'), tool, toTenths: tenths }),
    fc.record({ ...verb('pair'), tool, with: worker }),
    fc.record({ ...verb('press'), tool, forMs: span }),
    fc.record({ ...verb('turn'), tool, detents, everyMs: span }),
    fc.record({ ...verb('touch'), tool, with: worker }),
    fc.record({ ...verb('tap'), worker, forMs: span }),
    fc.record({ ...verb('close'), worker }),
    fc.record({ ...verb('readout'), device }),
    fc.record({ ...verb('leave'), who, forMs: maybeSpan }),
    fc.record({ ...verb('return'), who }),
    fc.record({ ...verb('air'), tool, worker, ...airFault, forMs: maybeSpan }),
    fc.record({ ...verb('sensor'), tool, fault: fc.constantFrom(...SENSOR_FAULTS), forMs: span }),
    fc.record({ ...verb('cut'), device, ...cutMoment, forMs: span }).map(inWriteOnly),
    fc.record({ ...verb('cell'), device, toPercent: fc.nat(100) }),
    fc.record({ ...verb('exchange'), device, forMs: span }),
    fc.record({ ...verb('clock'), device, ...rate, forMs: maybeSpan }),
    fc.record({ ...verb('flash'), device, page: fc.nat(15) }),
    fc.record({ ...verb('attack'), how: fc.constantFrom(...SENDERS), tool, worker, everyMs: pause, forMs: brief }),
    fc.record({ ...verb('attack'), how: fc.constant('middle'), tool, worker, everyMs: fc.constant(0), forMs: span }),
  );
}

type Cut = DayEvent & { readonly do: 'cut' };

function inWriteOnly(event: Cut): Cut {
  return event.when === 'write' ? event : { ...event, afterBytes: 0 };
}

/** Names of tools and of workers, all different. */
const cast = fc
  .uniqueArray(name, { minLength: 2, maxLength: 6 })
  .chain((names) =>
    fc.integer({ min: 1, max: names.length - 1 }).map((tools) => [names.slice(0, tools), names.slice(tools)] as const),
  );

export const anyDay: fc.Arbitrary<Day> = fc
  .tuple(cast, fc.nat(DAY_MS - 1), fc.integer({ min: 1, max: MAX_SPAN_MS }))
  .chain(([[tools, workers], fromMs, untilMs]) =>
    fc.record({
      fromMs: fc.constant(fromMs),
      untilMs: fc.constant(untilMs),
      seed: fc.nat(4_294_967_295),
      regime: fc.constantFrom(...REGIME_IDS),
      tools: fc.tuple(
        ...tools.map((tool) =>
          fc.record(
            {
              name: fc.constant(tool),
              hand: fc.constantFrom(...HAND_CHARACTERS),
              samples: fc.constantFrom(...SAMPLED_VIBRATIONS),
              magnitudeTenths: tenths,
              keyedTenths: fc.option(tenths, { nil: null }),
            },
            { requiredKeys: ['name', 'hand', 'magnitudeTenths', 'keyedTenths'] },
          ),
        ),
      ),
      workers: fc.tuple(
        ...workers.map((worker) =>
          fc.record({
            name: fc.constant(worker),
            noticePoints: fc.integer({ min: 1, max: 1000 }),
            sitePoints: fc.option(fc.integer({ min: 1, max: 1000 }), { nil: null }),
          }),
        ),
      ),
      events: fc
        .array(eventAmong(tools, workers, untilMs), { maxLength: 30 })
        .map((events) => events.toSorted((a, b) => a.atMs - b.atMs)),
    }),
  )
  .map(withinLimits);

/** Tools that are sampled run briefly. */
function withinLimits(day: Day): Day {
  const sampled = new Set(day.tools.filter(({ samples }) => samples !== undefined).map(({ name }) => name));
  const shortened = (event: DayEvent) =>
    event.do === 'run' && sampled.has(event.tool) ? { ...event, forMs: Math.min(event.forMs, 30_000) } : event;
  return { ...day, events: day.events.map(shortened) };
}
