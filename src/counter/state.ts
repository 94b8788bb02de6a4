// Everything a counter knows, as plain data beside its statechart: a copy of it is a copy of the counter.
import type { Report, Tally } from '../link/messages.js';
import type { Sums } from '../port/inner.js';
import type { SensorState } from '../port/port.js';
import type { DetectorState } from './detector.js';
import { noSums, type Rate } from './meter.js';
import type { SensorWatch } from './sensor.js';
import type { Setting } from './setting.js';

/** The session that is open, told to the wearable that opened it. */
export interface OpenSession {
  readonly session: number;
  readonly link: number;
  readonly wearable: number;
  readonly sums: Sums;
  /** Last sequence number given to a frame; 0 before the first. */
  sequence: number;
  /** Highest sequence of an acknowledgement heard; 0 for none. */
  heard: number;
  /** The report last sent, null before the first, and whether it was acknowledged. */
  report: Report | null;
  reportAcknowledged: boolean;
  /** The sensor was faulty at some time of the session (TRG-5): a fault that is over by the next tally is told too. */
  sensorFailed: boolean;
}

/** A session that has ended, kept as finished frames until its wearable has acknowledged them (PAI-5). */
export interface SealedSession {
  readonly session: number;
  readonly link: number;
  readonly wearable: number;
  /** A report where there is something to report, then the last tally. */
  readonly frames: readonly (Tally | Report)[];
}

export interface OpenPairing {
  readonly peer: number;
  readonly link: number;
  readonly session: number;
  readonly nonce: number;
  /** The digits shown, -1 before the wearable's hello. */
  digits: number;
}

/** What the last acknowledgement said (TAL-5). */
export interface Advice {
  readonly level: number;
  readonly leftTenths: number;
}

export interface CounterState {
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
  open: OpenSession | null;
  unclaimed: Sums;
  sealed: SealedSession[];
  advice: Advice | null;
}

export function freshState(id: number, keyedTenths: number): CounterState {
  return {
    id,
    levelMm: 0,
    sensor: 'good',
    sensorWatch: { faulty: false, against: 0 },
    detector: { running: false, pending: 0 },
    windows: 0,
    rate: { tenths: keyedTenths, previousTenths: keyedTenths, sinceWindow: 0 },
    setting: null,
    pairing: null,
    refusal: '',
    lastSession: 0,
    open: null,
    unclaimed: noSums(),
    sealed: [],
    advice: null,
  };
}
