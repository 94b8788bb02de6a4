// What a counter on the bench is. The model's counter and firmware sit in the same socket: the bench gives it inputs,
// window levels, the voltage of its cell, frames and time; it gives back displays, frames and the time of its next deadline.
// Times are ms of the counter's own clock since its boot; levels are the r.m.s. acceleration of a 100 ms window, band-limited
// to 6.3..1250 Hz, in mm/s².
import type { Cipher } from '../link/cipher.js';
import type { Message } from '../link/pairing-messages.js';
import type { Flash } from './flash.js';
import type { CounterInner, SessionSums } from './inner.js';
import type { Refusal } from './refusals.js';

export const WINDOW_MS = 100;

/** Logical inputs; a panel's physical gestures are mapped to them before they get here. */
export type CounterInput =
  | { readonly input: 'push' }
  | { readonly input: 'hold' }
  /** detents: positive clockwise, never 0. */
  | { readonly input: 'turn'; readonly detents: number }
  /** A wearable touches the counter; peer is its identity. */
  | { readonly input: 'touch'; readonly peer: number }
  /** It lies in its reader (PAI-7). */
  | { readonly input: 'readout' };

export const SENSOR_STATES = ['good', 'silent', 'frozen', 'clipped'] as const;
export type SensorState = (typeof SENSOR_STATES)[number];

export interface Identity {
  /** Unique among the devices of a bench, 1..65535. */
  readonly id: number;
  /** Magnitude keyed in before the day, tenths of m/s², 0 for none. */
  readonly keyedTenths: number;
}

/** A display as one sees it: which screen, up to two numbers on it (-1: blank) and the icons lit, sorted. */
export interface Display {
  readonly screen: string;
  readonly value: number;
  readonly second: number;
  readonly icons: readonly string[];
}

/** What a device can do to the world. */
export interface Board {
  readonly flash: Flash;
  readonly cipher: Cipher;
  show(display: Display): void;
  /** Sends a frame to the device with this identity. What it means is for the trace alone. */
  send(frame: Uint8Array, to: number, meaning: Message): void;
  /** The frame that just arrived was dropped, and is counted under this reason (TAL-4). */
  refused(reason: Refusal): void;
  /** A record is handed to the reader (PAI-7, WEA-4). */
  record(bytes: Uint8Array): void;
  /** 32 random bits. */
  random(): number;
}

export interface CounterBoard extends Board {
  readonly inner: CounterInner;
}

/** Sums of the session that is open (session 0: none, the sums are the unclaimed ones). */
export interface Observation {
  readonly session: number;
  readonly dose: number;
  readonly triggerWindows: number;
  readonly unratedWindows: number;
  readonly shortBursts: number;
  readonly magnitudeTenths: number;
  /** What else the counter keeps: its sealed sessions and, while one is open, the unclaimed sums as session 0. */
  readonly others: readonly (SessionSums & { readonly session: number })[];
}

export interface Counter {
  /**
   * A fresh start of the logic; kept storage survives. Called once before anything else, at time 0. cellMv: voltage of the
   * cell under working load.
   */
  boot(identity: Identity, cellMv: number): void;
  input(input: CounterInput): void;
  /** Level and sensor state of every window that ends from now on, the one that is being gathered included. */
  window(levelMm: number, sensor: SensorState): void;
  /** Voltage of the cell under working load, in mV, whenever it has changed. */
  cell(millivolts: number): void;
  receive(frame: Uint8Array): void;
  /**
   * Run to toMs (never backwards), doing everything due up to and including it, and return the time of the next
   * deadline (Infinity for none). The bench calls it before each input and at each deadline.
   */
  advance(toMs: number): number;
  observe(): Observation;
  /** A copy that goes on from here, on another board. Throws where that cannot be. */
  fork(board: CounterBoard): Counter;
  /** All that decides how the counter goes on, as plain data, for digests. */
  inside(): object;
}

/** Makes the counter that a bench puts into its sockets. */
export type CounterMaker = (board: CounterBoard) => Counter;
