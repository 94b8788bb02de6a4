// What a run of random days is asked for, and what it says of each of them.
import type { DayKind } from './canary.js';

export interface Look {
  readonly days: DayKind;
  readonly keys: boolean;
  readonly fromSeed: number;
  readonly count: number;
  /** No further day is begun once the process has worked so long. */
  readonly seconds: number;
}

export interface Finding {
  readonly seed: number;
  /** Names of the invariants that were broken on this day; THROWS where a device or the bench threw. */
  readonly broken: readonly string[];
  /** What was thrown, or ''. */
  readonly thrown: string;
  /** Hashes of the trace, '' where something was thrown: of all of it, and of what can be seen from outside. */
  readonly whole: string;
  readonly outward: string;
}

/** Stands beside the names of invariants: a throw is found by whoever runs the day. */
export const THROWS = 'throws';
