// Guards TRG-1 to TRG-5, KEP-1 and CLK-1: what a counter counts is the true handwork, within a window at each end and by its own
// clock; without power, and asleep, it counts nothing. A tool that is carried in a van does not run, but level alone cannot tell: of
// that time nothing to all may be counted, and a scenario says what it was. What a power failure took from its sums stays counted here: how much
// that may be is another invariant's.
import { clockText } from '../../trace/clock.js';
import type { EventOf } from '../../trace/kinds.js';
import type { Facts } from './facts.js';
import { getOrMake } from './get-or-make.js';
import type { Invariant } from './invariant.js';
import { type Bounds, Stretch, WINDOW_MS } from './stretch.js';

/** One tool, as its counter could know it. */
class Watched {
  private readonly stretch: Stretch;
  private runs = false;
  private carried = false;
  private awake = true;
  /** '' where it is good. */
  private sensor = '';
  /** Counted before this stretch. */
  private baseMs = 0;

  constructor(
    private readonly facts: Facts,
    private readonly tool: string,
  ) {
    this.stretch = new Stretch(facts.device(tool).clock);
  }

  run(atMs: number, runs: boolean): string | undefined {
    const wrong = this.settle(atMs);
    this.runs = runs;
    this.read(atMs);
    return wrong;
  }

  carry(atMs: number, carried: boolean): string | undefined {
    const wrong = this.settle(atMs);
    this.carried = carried;
    this.read(atMs);
    return wrong;
  }

  sense(atMs: number, sensor: string): string | undefined {
    const wrong = this.settle(atMs);
    this.sensor = sensor;
    this.read(atMs);
    return wrong;
  }

  /** With power, and awake, or not: whichever it is, detection begins anew. */
  wake(atMs: number, awake: boolean): string | undefined {
    if (awake === this.awake) return undefined;
    const wrong = awake ? this.judgeStretch(atMs) : undefined;
    this.awake = awake;
    this.read(atMs);
    return wrong;
  }

  /** So many windows are counted by now, in all: too many? */
  judge(windows: number, atMs: number): string | undefined {
    const bounds = this.stretch.sofar(atMs);
    const countedMs = windows * WINDOW_MS - this.baseMs;
    return countedMs <= bounds.mostMs ? undefined : this.text(countedMs, bounds);
  }

  /** After a long enough rest the stretch is over: was it counted within its bounds? The next one begins. */
  settle(atMs: number): string | undefined {
    return this.stretch.isOver(atMs) ? this.judgeStretch(atMs) : undefined;
  }

  private judgeStretch(atMs: number): string | undefined {
    const countedMs = this.facts.counter(this.tool).triggerWindows * WINDOW_MS - this.baseMs;
    const bounds = this.stretch.next(atMs);
    this.baseMs += countedMs;
    const within = countedMs >= bounds.leastMs && countedMs <= bounds.mostMs;
    return within ? undefined : this.text(countedMs, bounds);
  }

  private read(atMs: number): void {
    const { awake, runs, carried, sensor } = this;
    const clipped = sensor === 'clipped';
    this.stretch.read(atMs, {
      may: awake && (runs || carried || clipped),
      must: awake && (clipped || (sensor === '' && runs)),
    });
  }

  private text(countedMs: number, { fromMs, leastMs, mostMs }: Bounds): string {
    const from = clockText(this.facts.fromMs, fromMs);
    const allowed = `the true handwork allows ${leastMs / 1000} to ${mostMs / 1000} s`;
    return `${this.tool} counted ${countedMs / 1000} s of trigger time since ${from}, ${allowed}`;
  }
}

export const countedAsRun: Invariant = {
  name: 'trigger time is the true handwork, within a window at each end',
  guards: ['TRG-1', 'TRG-2', 'TRG-3', 'TRG-4', 'TRG-5', 'KEP-1', 'CLK-1', 'CEL-1'],
  watch: (facts) => {
    const tools = new Map<string, Watched>();
    const make = (tool: string) => new Watched(facts, tool);
    const of = (tool: string) => getOrMake(tools, tool, make);
    const isTool = (name: string) => facts.counters.has(name);
    return {
      on: {
        'hand.start': (event) => of(event.tool).run(event.at, true),
        'hand.stop': (event) => of(event.tool).run(event.at, false),
        'hand.carry': (event) => of(event.by).carry(event.at, true),
        'hand.arrive': (event) => of(event.by).carry(event.at, false),
        'fault.sensor': (event) => of(event.by).sense(event.at, event.fault),
        'fault.cut': (event) => (isTool(event.by) ? of(event.by).wake(event.at, false) : undefined),
        'fault.lifted': (event) => {
          if (event.what === 'sensor') return of(event.by).sense(event.at, '');
          return event.what === 'power' && isTool(event.by) ? of(event.by).wake(event.at, true) : undefined;
        },
        'shown.display': (event) => {
          if (!isTool(event.by) || !facts.device(event.by).on) return undefined;
          return of(event.by).wake(event.at, event.screen !== 'asleep');
        },
        'inner.count': (event) => judge(facts, of(event.by), event),
        'air.tally': (event) => judge(facts, of(event.by), event),
      },
      wrongAtEnd: (endMs) => [...tools.values()].map((one) => one.settle(endMs)).filter((wrong) => wrong !== undefined),
    };
  },
};

function judge(
  facts: Facts,
  watched: Watched,
  event: EventOf<'inner.count'> | EventOf<'air.tally'>,
): string | undefined {
  const counted = facts.session(event.by, event.session)?.counted.triggerWindows ?? 0;
  const grown = Math.max(0, event.triggerWindows - counted);
  return watched.judge(facts.counter(event.by).triggerWindows + grown, event.at);
}
