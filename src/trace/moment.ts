// The state of the whole day at one moment, folded from the events of a trace: what pages, reports and the replay show.
// Moments are plain and never changed: each event gives the next one, which shares with it whatever stayed the same, so
// that keeping many of them costs little.

import type { TraceEvent } from './kinds.js';
import { type AirFrame, afterAir } from './moment-air.js';
import { afterTool, type ToolMoment } from './moment-tool.js';
import { afterWorker, type WorkerMoment } from './moment-worker.js';

export interface Moment {
  /** The last event folded in; 0 before the first. */
  readonly n: number;
  /** Ms since the start of the day: the time of that event, or the time that was asked for. */
  readonly atMs: number;
  /** Time of day at the start, ms after midnight; length of the day in ms. */
  readonly fromMs: number;
  readonly untilMs: number;
  readonly regime: string;
  /** In the order of the scenario. */
  readonly workers: readonly WorkerMoment[];
  readonly tools: readonly ToolMoment[];
  /** The latest frames over the air, oldest first, at most AIR_KEPT. */
  readonly air: readonly AirFrame[];
}

/** Before anything has happened. */
export const BEFORE: Moment = {
  n: 0,
  atMs: 0,
  fromMs: 0,
  untilMs: 0,
  regime: '',
  workers: [],
  tools: [],
  air: [],
};

/** The moment after an event. Events must come in the order of the trace; kinds that change nothing here pass through. */
export function momentAfter(moment: Moment, event: TraceEvent): Moment {
  const day = event.kind === 'hand.day' ? event : moment;
  return {
    n: event.n,
    atMs: event.at,
    fromMs: day.fromMs,
    untilMs: day.untilMs,
    regime: day.regime,
    workers: afterWorker(moment.workers, event),
    tools: afterTool(moment.tools, event),
    air: afterAir(moment.air, event),
  };
}
