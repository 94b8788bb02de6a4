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

export interface CounterInner {
  state(region: string, state: string): void;
  count(session: number, sums: Readonly<Sums>): void;
  magnitude(tenths: number): void;
  session(session: number, what: 'opened' | 'sealed' | 'delivered', wearable: number): void;
}

/** An entry of a wearable's ledger: the largest values known of one session of one counter. */
export interface LedgerEntry {
  readonly counter: number;
  readonly session: number;
  /** Number of the shift in which the session was paired. */
  readonly shift: number;
  dose: number;
  triggerWindows: number;
  unratedWindows: number;
}

export interface WearableInner {
  state(region: string, state: string): void;
  ledger(entry: Readonly<LedgerEntry>, total: number): void;
  shift(shift: number, what: 'opened' | 'closed' | 'long'): void;
  incomplete(shift: number, counter: number, why: string): void;
}
