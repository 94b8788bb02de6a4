// What the model lets the trace see of its own state. Firmware need not have any of this.

/** Cumulative sums of one session, or of the dose outside any. Dose in u, windows of 100 ms. */
export interface Sums {
  /** 52 bits, saturating. */
  dose: number;
  /** 28 bits each, saturating; unrated windows are a part of the trigger windows. */
  triggerWindows: number;
  unratedWindows: number;
  /** 16 bits, saturating. */
  shortBursts: number;
}

/** What a device found in its journal when it started: records that count, torn ones that it skipped, pages not in use. */
export interface Recovered {
  readonly replayed: number;
  readonly torn: number;
  readonly retired: number;
}

export interface CounterInner {
  state(region: string, state: string): void;
  /** The journal holds these sums of the session now (session 0: of what is unclaimed). */
  kept(session: number, sums: SessionSums): void;
  /** It has started, and all that it found is told. */
  recovered(found: Recovered): void;
  count(session: number, sums: Readonly<Sums>): void;
  magnitude(tenths: number): void;
  session(session: number, what: 'opened' | 'sealed' | 'delivered' | 'read out', wearable: number): void;
  /** It has just started, and its journal holds this session. */
  found(session: number, what: 'opened' | 'sealed', wearable: number): void;
}

/** What a tally says of a session. */
export type SessionSums = Omit<Sums, 'shortBursts'>;

/** An entry of a wearable's ledger: the largest values known of one session of one counter. */
export interface LedgerEntry extends SessionSums {
  readonly counter: number;
  readonly session: number;
  /** Number of the shift in which the session was paired. */
  readonly shift: number;
}

export interface WearableInner {
  state(region: string, state: string): void;
  /** It has just started: its newest shift, whether that is open, and its dose. */
  resumed(shift: number, open: boolean, dose: number): void;
  /** It has started, and all that it found is told. */
  recovered(found: Recovered): void;
  /** It keeps the key of a session, whose dose goes to this shift; no tally has come under it yet. */
  paired(counter: number, session: number, shift: number): void;
  ledger(entry: Readonly<LedgerEntry>, total: number): void;
  shift(shift: number, what: 'opened' | 'closed' | 'long'): void;
  incomplete(shift: number, counter: number, why: string): void;
}
