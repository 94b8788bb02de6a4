// A random day on which something broke, made as short as it can be and still break the same, as a scenario that shows it again.
import type fc from 'fast-check';
import type { BenchOptions } from '../bench/bench.js';
import type { Day } from '../scenario/day.js';
import { writeScenario } from '../scenario/write.js';
import { dayOfSeed, shrinkSeed } from './shrink.js';
import { tryDay } from './try-day.js';

export interface Failure {
  readonly seed: number;
  /** What broke first, in words. */
  readonly what: string;
  /** The shortest day found on which the same breaks. */
  readonly day: Day;
  /** That day as the text of a scenario file; `counterproof check` of it says what breaks. */
  readonly scenario: string;
}

/** What broke first on the day of this seed, or null where all held; an error of the bench or of a device is a break too. */
export function brokenOn(day: Day, options: BenchOptions): { readonly name: string; readonly what: string } | null {
  try {
    const [breach] = tryDay(day, options);
    return breach === undefined ? null : { name: breach.invariant, what: `${breach.invariant}: ${breach.text}` };
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    return { name: `error: ${message}`, what: `an error: ${message}` };
  }
}

/** Throws where nothing breaks on the day of this seed. */
export function shortestFailure(days: fc.Arbitrary<Day>, seed: number, options: BenchOptions): Failure {
  const first = brokenOn(dayOfSeed(days, seed), options);
  if (first === null) throw new Error(`nothing breaks on the day of the seed ${seed}`);
  const day = shrinkSeed(days, seed, (shorter) => brokenOn(shorter, options)?.name === first.name);
  const what = brokenOn(day, options)?.what ?? first.what;
  return { seed, what, day, scenario: writeScenario(day, { title: titleOf(seed, first.name) }) };
}

/** One line, and short. */
function titleOf(seed: number, name: string): string {
  return `Random day ${seed}, on which this does not hold, ${name}`.slice(0, 120);
}
