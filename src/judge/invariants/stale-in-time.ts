// Guards TAL-6: a counter of which nothing new was heard for 20 s after a running tally, or 150 s after one at rest, is marked
// stale then, and the mark goes with the next new tally and not before: an old sum is never shown as live. Where a wearable
// still waits for an older session of the same counter, the newest one decides.
import { clockText } from '../../trace/clock.js';
import type { EventOf, TraceEvent } from '../../trace/kinds.js';
import type { Facts } from './facts.js';
import { getOrMake } from './get-or-make.js';
import type { Invariant } from './invariant.js';
import type { SessionFacts } from './session-facts.js';
import { sessionText } from './text.js';

const AFTER_RUNNING_MS = 20_000;
const AFTER_REST_MS = 150_000;
/** The mark may come so much later. */
const GRACE_MS = 1000;
/** Bits of a tally's flags (TAL-1). */
const RUNNING = 1;
const SEALED = 2;

/** What one wearable has heard of one session. */
interface Heard {
  readonly session: SessionFacts;
  sequence: number;
  /** When its sum becomes stale, Infinity for the last tally of a sealed session. */
  dueMs: number;
}

/** What one wearable knows of one counter. */
interface Known {
  /** In the order of their numbers. */
  readonly sessions: Heard[];
  marked: boolean;
  /** When a new tally was last heard, and when one was heard that the mark has still to go for; -1 for none. */
  newsMs: number;
  unmarkMs: number;
}

export const staleInTime: Invariant = {
  name: 'an old sum is marked stale, and only an old one',
  guards: ['TAL-6'],
  watch: (facts) => {
    const wearables = new Map<string, Map<string, Known>>();
    return {
      on: {
        'air.heard': (event) => {
          const sent = facts.sent.find(event.cause);
          return sent?.kind === 'air.tally'
            ? onTally(facts, knownOf(wearables, event.by, sent.by), sent, event)
            : undefined;
        },
        'shown.mark': (event) => onMark(knownOf(wearables, event.by, event.counter), event),
      },
      wrongAtEnd: (endMs) =>
        [...wearables.values()].flatMap((counters) =>
          [...counters.values()].map((known) => wrongMark(facts, known, endMs)).filter((wrong) => wrong !== undefined),
        ),
    };
  },
};

function onTally(facts: Facts, known: Known, sent: EventOf<'air.tally'>, event: TraceEvent): string | undefined {
  const heard = heardOf(facts, known, sent);
  if (heard === undefined || sent.sequence <= heard.sequence) return undefined;
  const wrong = wrongMark(facts, known, event.at);
  if (known.marked && heard === known.sessions.at(-1) && heard.dueMs < event.at) known.unmarkMs = event.at;
  heard.sequence = sent.sequence;
  heard.dueMs = event.at + ((sent.flags & RUNNING) === 0 ? AFTER_REST_MS : AFTER_RUNNING_MS);
  if ((sent.flags & SEALED) !== 0) heard.dueMs = Number.POSITIVE_INFINITY;
  known.newsMs = event.at;
  return wrong;
}

function onMark(known: Known, event: EventOf<'shown.mark'>): string | undefined {
  known.marked = event.on;
  known.unmarkMs = -1;
  const who = `${event.by} marks ${event.counter}`;
  if (!event.on) return known.newsMs === event.at ? undefined : `${who} as live without having heard anything new`;
  const due = known.sessions.some(({ dueMs }) => dueMs <= event.at && event.at <= dueMs + GRACE_MS);
  return due ? undefined : `${who} as stale, when nothing of it becomes so`;
}

/** The newest session is stale for longer than the grace without a mark, or marked although it was heard since. */
function wrongMark(facts: Facts, known: Known, nowMs: number): string | undefined {
  const newest = known.sessions.at(-1);
  if (newest === undefined) return undefined;
  const { session, dueMs } = newest;
  const who = `${session.worker} shows ${sessionText(session)}`;
  if (!known.marked && nowMs > dueMs + GRACE_MS) return `${who} as live, old since ${clockText(facts.fromMs, dueMs)}`;
  if (known.unmarkMs === -1 || nowMs === known.unmarkMs) return undefined;
  return `${who} as stale, though heard at ${clockText(facts.fromMs, known.unmarkMs)}`;
}

function heardOf(facts: Facts, known: Known, sent: EventOf<'air.tally'>): Heard | undefined {
  for (const heard of known.sessions) if (heard.session.session === sent.session) return heard;
  const session = facts.session(sent.by, sent.session);
  if (session === undefined) return undefined;
  const made = { session, sequence: 0, dueMs: Number.POSITIVE_INFINITY };
  known.sessions.push(made);
  known.sessions.sort((a, b) => a.session.session - b.session.session);
  return made;
}

function knownOf(wearables: Map<string, Map<string, Known>>, wearable: string, counter: string): Known {
  return getOrMake(getOrMake(wearables, wearable, newCounters), counter, newKnown);
}

function newCounters(): Map<string, Known> {
  return new Map();
}

function newKnown(): Known {
  return { sessions: [], marked: false, newsMs: -1, unmarkMs: -1 };
}
