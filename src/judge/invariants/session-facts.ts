// What a trace has told so far of one session of a counter: what is counted, what was told, what is charged.
// Units: dose in u, windows of 100 ms, times in ms since the start.

export interface Sums {
  dose: number;
  triggerWindows: number;
  unratedWindows: number;
}

/** One session of one counter; session 0 gathers what is counted outside any, which belongs to nobody. */
export interface SessionFacts {
  readonly counter: string;
  readonly session: number;
  /** The worker whose wearable it was opened with; '' for session 0. */
  readonly worker: string;
  /** Number of the earliest shift of that wearable that the session can have been paired in. */
  readonly earliestShift: number;
  state: 'opened' | 'sealed' | 'delivered';
  /** What the counter itself says that it has counted, and when that last changed or was sealed. */
  readonly counted: Sums;
  changedMs: number;
  /** The largest sums that its tallies told, and their highest sequence. */
  readonly told: Sums;
  toldSequence: number;
  /** What is on a ledger; chargedTo is '' while nothing is. */
  readonly charged: Sums;
  chargedTo: string;
  chargedShift: number;
}

export function newSession(
  counter: string,
  session: number,
  worker: string,
  earliestShift: number,
  atMs: number,
): SessionFacts {
  return {
    counter,
    session,
    worker,
    earliestShift,
    state: 'opened',
    counted: noSums(),
    changedMs: atMs,
    told: noSums(),
    toldSequence: 0,
    charged: noSums(),
    chargedTo: '',
    chargedShift: 0,
  };
}

function noSums(): Sums {
  return { dose: 0, triggerWindows: 0, unratedWindows: 0 };
}

/** Each sum becomes the larger of the two, as on a ledger (TAL-3). */
export function raise(sums: Sums, by: Readonly<Sums>): void {
  if (by.dose > sums.dose) sums.dose = by.dose;
  if (by.triggerWindows > sums.triggerWindows) sums.triggerWindows = by.triggerWindows;
  if (by.unratedWindows > sums.unratedWindows) sums.unratedWindows = by.unratedWindows;
}
