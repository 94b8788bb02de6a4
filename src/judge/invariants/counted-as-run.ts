// Guards TRG-1 to TRG-5 and TRG-4's bounds: what a counter counts lies within one window at each end of the true handwork.
// The handwork is taken in stretches between rests long enough for every stop to be confirmed. Within a stretch, a burst of
// at least 0.3 s counts for its length, a window less or more at each end; a shorter one may go uncounted; a gap below 0.6 s
// may be counted. While the sensor is faulty, nothing to everything may be counted (a clipped one counts as running).
import { clockText } from '../../trace/clock.js';
import type { Facts } from './facts.js';
import { getOrMake } from './get-or-make.js';
import type { Invariant } from './invariant.js';

const WINDOW_MS = 100;
const BURST_MS = 300;
const GAP_MS = 600;
/** Rest after which everything before it is counted or never will be: five windows, those of both ends, and one to spare. */
const REST_MS = 800;
const NEVER = Number.NEGATIVE_INFINITY;

class Stretch {
  running = false;
  faulty = false;
  private fromMs = 0;
  private sinceMs = 0;
  private restMs = NEVER;
  private faultMs = 0;
  /** Counted before this stretch, and the bounds of what may be counted in it by what is over. */
  private baseMs = 0;
  private leastMs = 0;
  private mostMs = 0;
  private sensorFailed = false;

  constructor(
    private readonly facts: Facts,
    private readonly tool: string,
  ) {}

  start(atMs: number): string | undefined {
    const gapMs = atMs - this.restMs;
    const wrong = this.settle(atMs);
    if (gapMs < GAP_MS) this.mostMs += gapMs;
    this.running = true;
    this.sinceMs = atMs;
    return wrong;
  }

  stop(atMs: number): void {
    const ranMs = atMs - this.sinceMs;
    this.running = false;
    this.restMs = atMs;
    this.mostMs += ranMs + 2 * WINDOW_MS;
    if (ranMs >= BURST_MS) this.leastMs += Math.max(0, ranMs - 2 * WINDOW_MS);
  }

  fail(atMs: number): string | undefined {
    const wrong = this.settle(atMs);
    if (!this.faulty) this.faultMs = atMs;
    this.faulty = true;
    this.sensorFailed = true;
    return wrong;
  }

  recover(atMs: number): void {
    this.faulty = false;
    this.mostMs += atMs - this.faultMs + 2 * WINDOW_MS;
    if (!this.running) this.restMs = atMs;
  }

  /** So many windows are counted by now, in all: too many? */
  judge(windows: number, atMs: number): string | undefined {
    const runningMs = this.running ? atMs - this.sinceMs + WINDOW_MS : 0;
    const faultyMs = this.faulty ? atMs - this.faultMs + WINDOW_MS : 0;
    const countedMs = windows * WINDOW_MS - this.baseMs;
    const mostMs = this.mostMs + runningMs + faultyMs;
    return countedMs <= mostMs ? undefined : this.text(countedMs, this.leastMs, mostMs);
  }

  /** After a long enough rest the stretch is over: was it counted within its bounds? The next one begins. */
  settle(atMs: number): string | undefined {
    if (this.running || this.faulty || atMs - this.restMs < REST_MS) return undefined;
    const countedMs = this.facts.counter(this.tool).triggerWindows * WINDOW_MS - this.baseMs;
    const leastMs = this.sensorFailed ? 0 : this.leastMs;
    const within = countedMs >= leastMs && countedMs <= this.mostMs;
    const wrong = within ? undefined : this.text(countedMs, leastMs, this.mostMs);
    this.baseMs += countedMs;
    this.leastMs = 0;
    this.mostMs = 0;
    this.sensorFailed = false;
    this.fromMs = atMs;
    return wrong;
  }

  private text(countedMs: number, leastMs: number, mostMs: number): string {
    const from = clockText(this.facts.fromMs, this.fromMs);
    const allowed = `the true handwork allows ${leastMs / 1000} to ${mostMs / 1000} s`;
    return `${this.tool} counted ${countedMs / 1000} s of trigger time since ${from}, ${allowed}`;
  }
}

export const countedAsRun: Invariant = {
  name: 'trigger time is the true handwork, within a window at each end',
  guards: ['TRG-1', 'TRG-2', 'TRG-3', 'TRG-4', 'TRG-5'],
  watch: (facts) => {
    const stretches = new Map<string, Stretch>();
    const make = (tool: string) => new Stretch(facts, tool);
    const of = (tool: string) => getOrMake(stretches, tool, make);
    const judge = (event: { by: string; session: number; triggerWindows: number; at: number }): string | undefined => {
      const counter = facts.counter(event.by);
      const counted = facts.session(event.by, event.session)?.counted.triggerWindows ?? 0;
      return of(event.by).judge(counter.triggerWindows + Math.max(0, event.triggerWindows - counted), event.at);
    };
    return {
      on: {
        'hand.start': (event) => of(event.tool).start(event.at),
        'hand.stop': (event) => {
          of(event.tool).stop(event.at);
          return undefined;
        },
        'fault.sensor': (event) => of(event.by).fail(event.at),
        'fault.lifted': (event) => {
          if (event.what !== 'sensor') return undefined;
          const stretch = of(event.by);
          if (stretch.faulty) stretch.recover(event.at);
          return undefined;
        },
        'inner.count': judge,
        'air.tally': judge,
      },
      wrongAtEnd: (endMs) =>
        [...stretches.values()].map((one) => one.settle(endMs)).filter((wrong) => wrong !== undefined),
    };
  },
};
