// Everything a wearable knows, as plain data beside its statechart: a copy of it is a copy of the wearable.
import type { LedgerEntry } from '../port/inner.js';

/** One session of one counter: its ledger entry, and what the link to the counter needs. */
export interface Link extends LedgerEntry {
  readonly link: number;
  /** Kept at pairing, but no tally has shown yet that the counter opened the session (PAI-1). */
  confirmed: boolean;
  /** The counter has sealed the session: this is its last tally. */
  sealed: boolean;
  running: boolean;
  flags: number;
  /** Highest sequences seen, 0 for none. */
  highest: number;
  highestReport: number;
  /** Last sequence given to an acknowledgement. */
  sequence: number;
  heardMs: number;
  stale: boolean;
}

export interface OpenPairing {
  readonly peer: number;
  readonly nonce: number;
  link: number;
  session: number;
  /** The digits shown, -1 before the counter's answer. */
  digits: number;
}

/** A shift of the wearer. The dose of a closed one may still grow: it belongs to the shift in which it was paired (WEA-3). */
export interface Shift {
  readonly shift: number;
  dose: number;
  unratedWindows: number;
  incomplete: boolean;
  long: boolean;
}

export interface WearableState {
  id: number;
  /** Kept shifts, oldest first; the last one is the one that is shown. */
  shifts: Shift[];
  shiftOpen: boolean;
  lastShift: number;
  links: Link[];
  pairing: OpenPairing | null;
  refusal: string;
  /** How many levels of the shift shown are passed, how many of them the wearer has acknowledged, calls so far. */
  passed: number;
  acknowledged: number;
  calls: number;
  /** Whether any paired tool is known to run. */
  anyRunning: boolean;
  /** When the next look at silent counters is planned, null where none is. */
  checkAtMs: number | null;
}

export function freshState(id: number): WearableState {
  return {
    id,
    shifts: [],
    shiftOpen: false,
    lastShift: 0,
    links: [],
    pairing: null,
    refusal: '',
    passed: 0,
    acknowledged: 0,
    calls: 0,
    anyRunning: false,
    checkAtMs: null,
  };
}
