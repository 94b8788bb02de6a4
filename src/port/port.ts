// What a counter on the bench is. The model's counter and firmware sit in the same socket: the bench gives it inputs,
// window levels and time; it gives back displays, frames and the time of its next deadline. Times are ms of the
// counter's own clock since its boot; levels are the r.m.s. acceleration of a 100 ms window, band-limited to
// 6.3..1250 Hz, in mm/s².
import type { Message } from '../link/messages.js';

export const WINDOW_MS = 100;

/** Logical inputs; a panel's physical gestures are mapped to them before they get here. */
export type CounterInput =
  | { readonly input: 'push' }
  | { readonly input: 'hold' }
  /** detents: positive clockwise, never 0. */
  | { readonly input: 'turn'; readonly detents: number }
  /** A wearable touches the counter; peer is its identity. */
  | { readonly input: 'touch'; readonly peer: number };

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

/** What the counter can do to the world. */
export interface Board {
  show(display: Display): void;
  send(message: Message, to: number): void;
  /** A frame that arrived was dropped. */
  refused(message: Message, from: number, reason: string): void;
  /** 32 random bits. */
  random(): number;
}

/** Sums of the session that is open (session 0: none, the sums are the unclaimed ones). */
export interface Observation {
  readonly session: number;
  readonly dose: number;
  readonly triggerWindows: number;
  readonly unratedWindows: number;
  readonly shortBursts: number;
  readonly magnitudeTenths: number;
}

export interface Counter {
  /** A fresh start of the logic; kept storage survives. Called once before anything else, at time 0. */
  boot(identity: Identity): void;
  input(input: CounterInput): void;
  /** Level and sensor state of every window that ends from now on, the one that is being gathered included. */
  window(levelMm: number, sensor: SensorState): void;
  receive(message: Message, from: number): void;
  /**
   * Run to toMs (never backwards), doing everything due up to and including it, and return the time of the next
   * deadline (Infinity for none). The bench calls it before each input and at each deadline.
   */
  advance(toMs: number): number;
  observe(): Observation;
}
