// What a trace has told so far of one session of a counter: what is counted, what is kept, what was told, what is charged.
// Units: dose in u, windows of 100 ms, times in ms since the start.
import type { EventOf } from '../../trace/kinds.js';

export interface Sums {
  dose: number;
  triggerWindows: number;
  unratedWindows: number;
}

/** undone: its counter's power failed before the journal held that it was opened. */
export type SessionState = 'opened' | 'sealed' | 'delivered' | 'read out' | 'undone';

/** One session of one counter; session 0 gathers what is counted outside any, which belongs to nobody. */
export interface SessionFacts {
  readonly counter: string;
  readonly session: number;
  /** The worker whose wearable it was opened with; '' for session 0. */
  readonly worker: string;
  /** Number of the shift that this wearable keeps its key for; 0 where it keeps none. */
  readonly shift: number;
  state: SessionState;
  readonly openedMs: number;
  sealedMs: number;
  /** When it was delivered or read out. */
  endedMs: number;
  /** What the counter itself says that it has counted, and when that last changed or was sealed. */
  readonly counted: Sums;
  changedMs: number;
  /** What the counter's journal holds, and since when. */
  readonly kept: Sums;
  keptMs: number;
  /** Its counter has started again: whether it has said since that it has the session, and with what sums. */
  found: boolean;
  recounted: boolean;
  /** The largest sums that its tallies told, and their highest sequence; by sequence what its counter has told. */
  readonly told: Sums;
  toldSequence: number;
  readonly frames: Map<number, EventOf<'air.tally'> | EventOf<'air.report'>>;
  /** What is on a ledger; chargedTo is '' while nothing is. */
  readonly charged: Sums;
  chargedTo: string;
  /** Of what is on the ledger, what the wearable's journal holds for certain: no failure takes it back. */
  readonly settled: Sums;
  /** Its wearable has started again: whether it has said since what it has of the session. */
  restated: boolean;
}

export function newSession(
  counter: string,
  session: number,
  worker: string,
  shift: number,
  atMs: number,
): SessionFacts {
  return {
    counter,
    session,
    worker,
    shift,
    state: 'opened',
    openedMs: atMs,
    sealedMs: Number.POSITIVE_INFINITY,
    endedMs: Number.POSITIVE_INFINITY,
    counted: noSums(),
    changedMs: atMs,
    kept: noSums(),
    keptMs: atMs,
    found: true,
    recounted: true,
    told: noSums(),
    toldSequence: 0,
    frames: new Map(),
    charged: noSums(),
    chargedTo: '',
    settled: noSums(),
    restated: true,
  };
}

export function noSums(): Sums {
  return { dose: 0, triggerWindows: 0, unratedWindows: 0 };
}

/** Each sum becomes the larger of the two, as on a ledger (TAL-3). */
export function raise(sums: Sums, by: Readonly<Sums>): void {
  if (by.dose > sums.dose) sums.dose = by.dose;
  if (by.triggerWindows > sums.triggerWindows) sums.triggerWindows = by.triggerWindows;
  if (by.unratedWindows > sums.unratedWindows) sums.unratedWindows = by.unratedWindows;
}

export function become(sums: Sums, { dose, triggerWindows, unratedWindows }: Readonly<Sums>): void {
  sums.dose = dose;
  sums.triggerWindows = triggerWindows;
  sums.unratedWindows = unratedWindows;
}

export function isSame(sums: Readonly<Sums>, other: Readonly<Sums>): boolean {
  return (
    sums.dose === other.dose &&
    sums.triggerWindows === other.triggerWindows &&
    sums.unratedWindows === other.unratedWindows
  );
}
