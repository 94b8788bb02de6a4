// A scenario as the reader returns it: one day, what is expected of it, and the words around it.
import type { Day } from './day.js';
import type { Expectation } from './expectation.js';

export type { Place } from './place.js';

/** What the instructor asks and says at a moment; never part of a trace. */
export interface Note {
  readonly atMs: number;
  readonly ask: string | null;
  readonly say: string;
}

/** One run of a scenario file: a row of its parameters, with or without a what-if applied. */
export interface ScenarioRun {
  /** "" where the file has no rows, else for example "away=5m loss=0/1". */
  readonly row: string;
  /** Name of the what-if that was applied, or null for the day as written. */
  readonly whatIf: string | null;
  readonly day: Day;
  /** For each event of the day where its step begins in the text of the file, in UTF-16 units. */
  readonly offsets: readonly number[];
  readonly expectations: readonly Expectation[];
  readonly notes: readonly Note[];
}

export interface Scenario {
  readonly file: string;
  readonly title: string;
  /** Requirement identifiers, MAG-1 … WEA-5. */
  readonly covers: readonly string[];
  /** One run a row, as written (no what-if applied). */
  readonly runs: readonly ScenarioRun[];
  readonly whatIfs: readonly string[];
  /** For each row and each what-if, in this order, the run with it applied; its expectations are those that name it. */
  readonly whatIfRuns: readonly ScenarioRun[];
}
