// Watches a run with all invariants at once, event by event as it goes or over a finished trace.
import type { Kind, TraceEvent } from '../../trace/kinds.js';
import type { Breach, BreachSort } from '../verdict.js';
import { Facts } from './facts.js';
import { getOrMake } from './get-or-make.js';
import type { Invariant, Watch } from './invariant.js';
import { INVARIANTS } from './list.js';
import { updatesOf } from './updates.js';

/** Further breaches of an invariant are not told: they follow from the first as a rule. */
const MAX_TOLD_EACH = 3;

interface Watched {
  readonly invariant: Invariant;
  readonly watch: Watch;
  told: number;
}

interface Handler {
  readonly watched: Watched;
  readonly handle: (event: TraceEvent) => string | undefined;
}

/** What is done with each event of a kind. */
interface Course {
  readonly handlers: Handler[];
  update: (event: TraceEvent) => void;
}

export class Invariants {
  /** What was broken so far, in order. */
  readonly breaches: Breach[] = [];
  private readonly facts = new Facts();
  private lastN = 0;
  private readonly watched: readonly Watched[];
  private readonly courses = new Map<Kind, Course>();
  private readonly handlersOfAny: Handler[] = [];

  constructor(invariants: readonly Invariant[] = INVARIANTS) {
    this.watched = invariants.map((invariant) => ({ invariant, watch: invariant.watch(this.facts), told: 0 }));
    for (const watched of this.watched) {
      const { onAny } = watched.watch;
      if (onAny !== undefined) this.handlersOfAny.push({ watched, handle: onAny });
      for (const [kind, handle] of entries<string | undefined>(watched.watch.on))
        this.courseOf(kind).handlers.push({ watched, handle });
    }
    for (const [kind, update] of entries<void>(updatesOf(this.facts))) this.courseOf(kind).update = update;
  }

  /** Takes the next event. */
  see(event: TraceEvent): void {
    const course = this.courses.get(event.kind);
    this.ask(this.handlersOfAny, event);
    if (course !== undefined) {
      this.ask(course.handlers, event);
      course.update(event);
    }
    this.lastN = event.n;
  }

  /** The run has ended at endMs: judges what was due by then, and returns all that was broken. */
  end(endMs: number): readonly Breach[] {
    const n = this.lastN;
    for (const watched of this.watched) {
      for (const wrong of watched.watch.wrongAtEnd?.(endMs) ?? []) this.tell(watched, 'wrong', wrong, n, endMs);
      for (const due of watched.watch.waitingFor?.(endMs) ?? []) this.tell(watched, 'stuck', due, n, endMs);
    }
    return this.breaches;
  }

  private ask(handlers: readonly Handler[], event: TraceEvent): void {
    for (const { watched, handle } of handlers) {
      const wrong = handle(event);
      if (wrong !== undefined) this.tell(watched, 'wrong', wrong, event.n, event.at);
    }
  }

  private tell(watched: Watched, sort: BreachSort, what: string, n: number, atMs: number): void {
    watched.told += 1;
    if (watched.told > MAX_TOLD_EACH) return;
    const { name, guards } = watched.invariant;
    const text = sort === 'wrong' ? `wrong: ${what}` : `stuck: waiting for ${what}`;
    this.breaches.push({ invariant: name, guards, sort, text, n, atMs });
  }

  private courseOf(kind: Kind): Course {
    return getOrMake(this.courses, kind, () => ({ handlers: [], update: () => {} }));
  }
}

/** A table by kind as pairs; each function is only ever given events of its kind. */
function entries<R>(table: object): readonly (readonly [Kind, (event: TraceEvent) => R])[] {
  return Object.entries(table) as [Kind, (event: TraceEvent) => R][];
}
