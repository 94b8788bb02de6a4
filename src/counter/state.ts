// Everything a counter knows, as plain data beside its statechart: a copy of it is a copy of the counter. What of it
// outlasts a power failure stands in journal.ts.
import type { Secured } from '../link/frames.js';
import type { Report, Tally } from '../link/messages.js';
import type { CellWatch } from '../port/cell.js';
import type { Sums } from '../port/inner.js';
import type { SensorState } from '../port/port.js';
import { type BadTags, noBadTags } from '../port/throttle.js';
import type { DetectorState } from './detector.js';
import { noSums, type Rate } from './meter.js';
import type { SensorWatch } from './sensor.js';
import type { Setting } from './setting.js';

/** The session that is open, told to the wearable that opened it. */
export interface OpenSession extends Secured {
  readonly link: number;
  readonly wearable: number;
  readonly sums: Sums;
  /** What the journal holds of the sums: no tally says more (TAL-2). */
  kept: Readonly<Sums>;
  /** Last sequence number given to a frame; 0 before the first. */
  sequence: number;
  /** Up to here sequence numbers are reserved in the journal (TAL-2). */
  reserved: number;
  /** The first sequence number since the counter started: an older acknowledgement is a replayed one. */
  readonly sequenceAtBoot: number;
  /** Highest sequence of an acknowledgement heard; 0 for none. */
  heard: number;
  /** The report last sent, null before the first, and whether it was acknowledged. */
  report: Report | null;
  reportAcknowledged: boolean;
  /** The sensor was faulty at some time of the session (TRG-5): a fault that is over by the next tally is told too. */
  sensorFailed: boolean;
  /** Something beside the sums has changed since the journal took them last. */
  unkept: boolean;
  /** Power was lost while the session was open (KEP-3), or was too poor to count on (CEL-1). */
  powerLost: boolean;
}

/** A finished frame: its bytes, and what they mean. */
export interface SealedFrame {
  readonly bytes: Uint8Array;
  readonly message: Tally | Report;
}

/** A session that has ended, kept as finished frames until its wearable has acknowledged them (PAI-5). */
export interface SealedSession extends Secured {
  readonly link: number;
  readonly wearable: number;
  /** A report where there is something to report, then the last tally. */
  readonly frames: readonly SealedFrame[];
  /** Its place in the journal, 0..31, and whether the journal holds it: it is told only then (TAL-2). */
  readonly slot: number;
  kept: boolean;
}

export interface OpenPairing {
  readonly peer: number;
  readonly link: number;
  readonly session: number;
  /** X25519 key pair of this pairing alone, and the nonce that is revealed last (PAI-2). */
  readonly secret: Uint8Array;
  readonly publicKey: Uint8Array;
  readonly nonce: Uint8Array;
  /** What the wearable has said so far. */
  peerKey: Uint8Array | null;
  peerNonce: Uint8Array | null;
  /** The session's key, and the digits shown, -1 before both nonces are known. */
  key: Uint8Array | null;
  digits: number;
}

/** What the last acknowledgement said (TAL-5). */
export interface Advice {
  readonly level: number;
  readonly leftTenths: number;
}

export interface CounterState extends CellWatch {
  id: number;
  levelMm: number;
  sensor: SensorState;
  sensorWatch: SensorWatch;
  detector: DetectorState;
  /** 100 ms windows gathered since boot. */
  windows: number;
  rate: Rate;
  setting: Setting | null;
  pairing: OpenPairing | null;
  refusal: string;
  /** Sessions are numbered from 1 and the numbers only grow (PAI-3). */
  lastSession: number;
  /** 16 bits, saturating (KEP-3). */
  powerLosses: number;
  open: OpenSession | null;
  unclaimed: Sums;
  /** What the journal holds of the unclaimed sums. */
  keptUnclaimed: Readonly<Sums>;
  sealed: SealedSession[];
  advice: Advice | null;
  /** A tally waits until the journal holds what it says. */
  tallyWaits: boolean;
  badTags: BadTags;
}

export function freshState(id: number, cellMv: number): CounterState {
  return {
    id,
    cellMv,
    asleep: false,
    looks: 0,
    levelMm: 0,
    sensor: 'good',
    sensorWatch: { faulty: false, against: 0 },
    detector: { running: false, pending: 0 },
    windows: 0,
    rate: { tenths: 0, previousTenths: 0, sinceWindow: 0 },
    setting: null,
    pairing: null,
    refusal: '',
    lastSession: 0,
    powerLosses: 0,
    open: null,
    unclaimed: noSums(),
    keptUnclaimed: noSums(),
    sealed: [],
    advice: null,
    tallyWaits: false,
    badTags: noBadTags(),
  };
}
