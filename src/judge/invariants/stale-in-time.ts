// Guards TAL-6, WEA-5 and CLK-1: a counter of which nothing new was heard for 20 s after a running tally, or 150 s after one at
// rest, of the wearable's clock, is marked stale then, and the mark goes with the next new tally and not before: an old sum is
// never shown as live. Where a wearable still waits for an older session of the same counter, the newest one decides. One that
// starts again knows nothing live: it marks every counter whose newest session is not sealed.
import { clockText } from '../../trace/clock.js';
import type { EventOf } from '../../trace/kinds.js';
import type { Facts } from './facts.js';
import { getOrMake } from './get-or-make.js';
import { HeardTallies, type HeardTally } from './heard-tallies.js';
import type { Invariant, Watch } from './invariant.js';
import { KnownCounter } from './known-counter.js';
import { sessionText } from './text.js';

export const staleInTime: Invariant = {
  name: 'an old sum is marked stale, and only an old one',
  guards: ['TAL-6', 'WEA-5', 'CLK-1'],
  watch: (facts) => new Marks(facts),
};

class Marks implements Watch {
  private readonly heard: HeardTallies;
  /** By wearable, then by counter. */
  private readonly wearables = new Map<string, Map<string, KnownCounter>>();

  readonly on: Watch['on'] = {
    'air.heard': (event) => this.take(this.heard.hear(event)),
    'air.refused': (event) => {
      this.heard.refuse(event);
      return undefined;
    },
    'shown.mark': (event) => {
      const late = this.take(this.heard.take());
      return wrongTurn(this.known(event.by, event.counter), event) ?? late;
    },
    'inner.ledger': ({ by, counter, session, at }) => {
      const device = this.facts.device(by);
      if (device.starting) this.known(by, counter).find(session, at, device);
      return undefined;
    },
    'fault.cut': ({ by, at }) => {
      const late = this.take(this.heard.take());
      if (!this.facts.device(by).on) return late;
      const wrong = this.wrong(by, at)[0];
      for (const known of this.countersOf(by).values()) known.forget();
      return late ?? wrong;
    },
  };

  constructor(private readonly facts: Facts) {
    this.heard = new HeardTallies(facts);
  }

  wrongAtEnd(endMs: number): readonly string[] {
    const late = this.take(this.heard.take());
    const wrong = [...this.wearables.keys()].flatMap((wearable) =>
      this.facts.device(wearable).on ? this.wrong(wearable, endMs) : [],
    );
    return late === undefined ? wrong : [late, ...wrong];
  }

  private take(taken: HeardTally | undefined): string | undefined {
    if (taken === undefined) return undefined;
    const { by, at } = taken.heard;
    const known = this.known(by, taken.tally.by);
    const wrong = this.wrongMark(by, taken.tally.by, known, at);
    known.hear(taken);
    return wrong;
  }

  private wrong(wearable: string, nowMs: number): readonly string[] {
    return [...this.countersOf(wearable)]
      .map(([counter, known]) => this.wrongMark(wearable, counter, known, nowMs))
      .filter((text) => text !== undefined);
  }

  private wrongMark(wearable: string, counter: string, known: KnownCounter, nowMs: number): string | undefined {
    const { newest, unmarkMs } = known;
    if (newest === undefined) return undefined;
    const who = `${wearable} shows ${sessionText({ counter, session: newest.session })}`;
    const { fromMs } = this.facts;
    if (known.isUnmarked(nowMs))
      return `${who} as live, old since ${clockText(fromMs, newest.atMs + newest.newsForMs)}`;
    if (unmarkMs === -1 || nowMs === unmarkMs) return undefined;
    return `${who} as stale, though heard at ${clockText(fromMs, unmarkMs)}`;
  }

  private known(wearable: string, counter: string): KnownCounter {
    const { clock } = this.facts.device(wearable);
    return getOrMake(this.countersOf(wearable), counter, () => new KnownCounter(clock));
  }

  private countersOf(wearable: string): Map<string, KnownCounter> {
    return getOrMake(this.wearables, wearable, newCounters);
  }
}

function wrongTurn(known: KnownCounter, event: EventOf<'shown.mark'>): string | undefined {
  const mayMark = known.mayMark(event.at);
  known.mark(event.on);
  const who = `${event.by} marks ${event.counter}`;
  if (!event.on) return known.newsMs === event.at ? undefined : `${who} as live without having heard anything new`;
  return mayMark ? undefined : `${who} as stale, when nothing of it becomes so`;
}

function newCounters(): Map<string, KnownCounter> {
  return new Map();
}
