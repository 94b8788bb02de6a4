// How a device's statechart is run. The chart decides; guards read the device's plain data, effects change it and act.
// The bench brings the engines; a device only knows this interface.
import type { AnyStateMachine } from 'xstate';

/** A logical event of a chart; whatever it carries are plain numbers. */
export interface ChartEvent {
  readonly type: string;
  readonly [field: string]: number | string;
}

export type Guards = Readonly<Record<string, (event: ChartEvent) => boolean>>;
export type Effects = Readonly<Record<string, (event: ChartEvent) => void>>;

export interface Chart {
  readonly machine: AnyStateMachine;
  readonly guards: Guards;
  readonly effects: Effects;
  /** Told after a transition's effects, once for each top-level region whose state is another. */
  readonly onState: (region: string, state: string) => void;
}

export interface Engine {
  /** Enters the initial states. */
  start(): void;
  /** Handles an event; one sent from within an effect is handled after the present one. */
  send(event: ChartEvent): void;
  /** Sends an event delayMs from now. */
  post(delayMs: number, event: ChartEvent): void;
  /** State of a top-level region, nested states joined by dots: "setting.reviewing". */
  state(region: string): string;
  readonly nowMs: number;
  /** Time of the next deadline, Infinity where none is armed. */
  nextMs(): number;
  /** Moves to toMs, which must not lie beyond the next deadline, without firing anything. */
  moveTo(toMs: number): void;
  /** Fires everything due up to and including toMs, each at its own time. */
  runTo(toMs: number): void;
  /** The chart's states and the times of its deadlines, for digests. */
  inside(): readonly [states: string, deadlinesMs: readonly number[]];
  /** A copy that goes on from here, for a copy of the device. Throws where the engine cannot be copied. */
  fork(chart: Chart): Engine;
}

/** Makes the engine of one device. */
export type EngineMaker = (chart: Chart) => Engine;
