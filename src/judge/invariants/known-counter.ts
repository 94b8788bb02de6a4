// What one wearable knows of one counter, as far as it matters to whether its sum is old (TAL-6).

import type { ClockFacts } from './clock-facts.js';
import type { DeviceFacts } from './device-facts.js';
import type { HeardTally } from './heard-tallies.js';
import { TALLY_FLAG } from './tally-flags.js';

const AFTER_RUNNING_MS = 20_000;
const AFTER_REST_MS = 150_000;
const NEVER = Number.POSITIVE_INFINITY;
const NOTHING_MS = Number.NEGATIVE_INFINITY;
/** The mark may come so much later. */
const GRACE_MS = 1000;

/** What it has heard of one session. */
interface Heard {
  readonly session: number;
  sequence: number;
  /** Up to here tallies were heard before the last start: they need be no news again. */
  heardUpTo: number;
  /** When, and how long that is news, of the wearable's clock; never old after the last tally of a sealed session. */
  atMs: number;
  newsForMs: number;
  /** When that was heard which says whether it is sealed, and whether the wearable knows so for certain. */
  heardMs: number;
  certain: boolean;
}

export class KnownCounter {
  marked = false;
  /** When a new tally was last heard, and when one was heard that the mark has still to go for; -1 for none. */
  newsMs = -1;
  unmarkMs = -1;
  /** In the order of their numbers; and what was known before the last start. */
  private sessions: Heard[] = [];
  private before: readonly Heard[] = [];

  constructor(private readonly clock: ClockFacts) {}

  /** The session that was paired last decides. */
  get newest(): Readonly<Heard> | undefined {
    return this.sessions.at(-1);
  }

  hear({ tally: { session, sequence, flags }, heard: { at } }: HeardTally): void {
    const known = this.of(session);
    if (sequence <= known.sequence) return;
    const isAgain = sequence <= known.heardUpTo;
    if (this.marked && known === this.newest && this.isOld(at) && !isAgain) this.unmarkMs = at;
    known.sequence = sequence;
    known.atMs = at;
    known.heardMs = at;
    known.newsForMs = (flags & TALLY_FLAG.running) === 0 ? AFTER_REST_MS : AFTER_RUNNING_MS;
    known.certain = true;
    if ((flags & TALLY_FLAG.sealed) !== 0) known.newsForMs = NEVER;
    this.newsMs = at;
  }

  mark(on: boolean): void {
    this.marked = on;
    this.unmarkMs = -1;
  }

  /** Power fails: nothing is known any more. */
  forget(): void {
    this.before = this.sessions;
    this.sessions = [];
    this.mark(false);
  }

  /** It starts again, and has something of a session: that is old, but for one that was sealed. */
  find(session: number, atMs: number, { undoneSinceMs, untold, failedMs }: DeviceFacts): void {
    const before = this.before.find((one) => one.session === session);
    const heardMs = before?.heardMs ?? NOTHING_MS;
    const isUnsure = before?.certain === false || heardMs >= undoneSinceMs || (untold && heardMs === failedMs);
    const known = this.of(session);
    known.heardUpTo = Math.max(before?.sequence ?? 0, before?.heardUpTo ?? 0);
    known.atMs = atMs;
    known.heardMs = heardMs;
    known.newsForMs = before?.newsForMs === NEVER && !isUnsure ? NEVER : 0;
    known.certain = !isUnsure;
  }

  /** The mark may come now: what the newest session told has just become old. */
  mayMark(atMs: number): boolean {
    const { newest, clock } = this;
    if (newest === undefined || newest.newsForMs === NEVER) return false;
    return this.isOld(atMs) && clock.least(newest.atMs, atMs) <= newest.newsForMs + GRACE_MS;
  }

  /** The newest session is stale for longer than the grace without a mark. */
  isUnmarked(nowMs: number): boolean {
    const { newest, marked, clock } = this;
    if (newest === undefined || marked || !newest.certain) return false;
    return clock.least(newest.atMs, nowMs) > newest.newsForMs + GRACE_MS;
  }

  private isOld(atMs: number): boolean {
    const { newest, clock } = this;
    return newest !== undefined && clock.most(newest.atMs, atMs) >= newest.newsForMs;
  }

  private of(session: number): Heard {
    const known = this.sessions.find((one) => one.session === session);
    if (known !== undefined) return known;
    const made = { session, sequence: 0, heardUpTo: 0, atMs: 0, newsForMs: NEVER, heardMs: NOTHING_MS, certain: true };
    this.sessions.push(made);
    this.sessions.sort((a, b) => a.session - b.session);
    return made;
  }
}
