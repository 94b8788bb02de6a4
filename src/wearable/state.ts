// Everything a wearable knows, as plain data beside its statechart: a copy of it is a copy of the wearable.
import type { CellWatch } from '../port/cell.js';
import type { LedgerEntry } from '../port/inner.js';
import { type BadTags, noBadTags } from '../port/throttle.js';

/** One session of one counter: its ledger entry, and what the link to the counter needs. */
export interface Link extends LedgerEntry {
  readonly link: number;
  readonly key: Uint8Array;
  /** Its place in the journal, and whether the journal holds the key: the pairing ends only then. */
  readonly slot: number;
  kept: boolean;
  /** Kept at pairing, but no tally has shown yet that the counter opened the session (PAI-1). */
  confirmed: boolean;
  /** The counter has sealed the session: this is its last tally. */
  sealed: boolean;
  running: boolean;
  flags: number;
  /** Highest sequences seen, 0 for none. */
  highest: number;
  highestReport: number;
  /** What the counter's last report said. */
  report: ReportedSums;
  /** Last sequence given to an acknowledgement, and up to where sequences are reserved in the journal (TAL-2). */
  sequence: number;
  reserved: number;
  /** When a tally came last; null where that was before the wearable's last start, nobody knows how long (TAL-7). */
  heardMs: number | null;
  stale: boolean;
  /** What the last acknowledgement said, and when; one that waits until the journal holds what it says. */
  said: { atMs: number; level: number; closed: boolean; highestReport: number } | null;
  ackWaits: boolean;
  /** A tally has changed it since the journal took it last. */
  unkept: boolean;
  /** So has a report. */
  reportUnkept: boolean;
}

/** What a report adds to the tallies of a session. */
export interface ReportedSums {
  readonly shortBursts: number;
  readonly powerLosses: number;
  readonly unclaimedDose: number;
  readonly unclaimedWindows: number;
}

export interface OpenPairing {
  readonly peer: number;
  /** X25519 key pair of this pairing alone, and the nonce (PAI-2). */
  readonly secret: Uint8Array;
  readonly publicKey: Uint8Array;
  readonly nonce: Uint8Array;
  /** What the counter has answered, null before it has. */
  answer: {
    readonly link: number;
    readonly session: number;
    readonly publicKey: Uint8Array;
    readonly commitment: Uint8Array;
  } | null;
  peerNonce: Uint8Array | null;
  /** The session's key, and the digits shown, -1 before the counter has revealed its nonce. */
  key: Uint8Array | null;
  digits: number;
}

/** A shift of the wearer. The dose of a closed one may still grow: it belongs to the shift in which it was paired (WEA-3). */
export interface Shift {
  readonly shift: number;
  dose: number;
  triggerWindows: number;
  unratedWindows: number;
  /** Bits of INCOMPLETE: why it is marked, 0 where it is not. */
  incomplete: number;
  long: boolean;
  /** How many of its levels the wearer has acknowledged. */
  acknowledged: number;
  /** When it began, on the wearable's clock; before its last start where negative. */
  openedMs: number;
  /** Sums of the sessions that are no longer kept by themselves, and the last of those. */
  folded: { dose: number; triggerWindows: number; unratedWindows: number; counter: number; session: number };
}

/** Why a shift is marked incomplete. */
export const INCOMPLETE = {
  'short bursts': 1,
  'sensor fault': 2,
  'journal fault': 4,
  'power lost': 8,
  saturated: 16,
  implausible: 32,
} as const;

export interface WearableState extends CellWatch {
  id: number;
  /** Kept shifts, oldest first; the last one is the one that is shown. */
  shifts: Shift[];
  shiftOpen: boolean;
  lastShift: number;
  links: Link[];
  pairing: OpenPairing | null;
  refusal: string;
  /** How many levels of the shift shown are passed, calls so far. */
  passed: number;
  calls: number;
  badTags: BadTags;
  /** Whether any paired tool is known to run. */
  anyRunning: boolean;
  /** When the next look at silent counters is planned, null where none is. */
  checkAtMs: number | null;
}

export function freshState(id: number, cellMv: number): WearableState {
  return {
    id,
    cellMv,
    asleep: false,
    looks: 0,
    shifts: [],
    shiftOpen: false,
    lastShift: 0,
    links: [],
    pairing: null,
    refusal: '',
    passed: 0,
    calls: 0,
    badTags: noBadTags(),
    anyRunning: false,
    checkAtMs: null,
  };
}
