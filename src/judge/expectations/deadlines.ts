// The form "within … after …": something happens, or comes to hold, no later than so long after each of its anchors.
import type { Claim, Expectation, Happening } from '../../scenario/expectation.js';
import { readClaim } from './claims.js';
import { type Finding, finding, type Subject, vacuous } from './finding.js';
import { readHappening } from './happenings.js';
import { clock, seenText } from './moments.js';
import type { TraceIndex } from './trace-index.js';

type Within = Extract<Expectation, { form: 'within' }>;

/** From when on to watch; n is 0 where that is a time, else the event after which it must happen. */
interface Anchor {
  readonly atMs: number;
  readonly n: number;
}

interface Outcome {
  readonly came: boolean;
  readonly seen: string;
  readonly atMs: number;
  readonly n: number;
}

interface Watched extends Subject {
  /** What came of it from the anchor up to and including untilMs. */
  outcome(anchor: Anchor, untilMs: number): Outcome;
}

/**
 * An anchor whose time runs beyond the end of the day decides nothing unless it was met; where no anchor decides
 * anything, the expectation is vacuous and does not hold.
 */
export function weighWithin(index: TraceIndex, { withinMs, after, claim }: Within): Finding {
  const watched = 'happening' in claim ? watchHappening(index, claim.happening) : watchClaim(index, claim);
  const { anchors, what } = anchorsOf(index, after);
  const subject = {
    expected: `within ${withinMs / 1000} s after ${what}: ${watched.expected}`,
    devices: watched.devices,
  };
  if (anchors.length === 0) return vacuous(subject, `${what} never came`, index.endMs);
  let met: Finding | undefined;
  for (const anchor of anchors) {
    const untilMs = anchor.atMs + withinMs;
    const { came, seen, atMs, n } = watched.outcome(anchor, Math.min(untilMs, index.endMs));
    if (came) met = finding(subject, true, seen, atMs, n);
    else if (untilMs <= index.endMs) {
      return finding(subject, false, `${seen}, by ${clock(index, untilMs)}`, untilMs, n === 0 ? anchor.n : n);
    }
  }
  return met ?? vacuous(subject, `the day ends at ${clock(index, index.endMs)}, before the time is up`, index.endMs);
}

function anchorsOf(
  index: TraceIndex,
  after: Within['after'],
): { readonly anchors: readonly Anchor[]; readonly what: string } {
  if ('atMs' in after) {
    const what = clock(index, after.atMs);
    return { anchors: after.atMs < index.endMs ? [{ atMs: after.atMs, n: 0 }] : [], what };
  }
  const { what, events } = readHappening(index, after.happening);
  return { anchors: events.map(({ at, n }) => ({ atMs: at, n })), what };
}

function watchHappening(index: TraceIndex, happening: Happening): Watched {
  const { what, devices, events } = readHappening(index, happening);
  return {
    expected: what,
    devices,
    outcome(anchor, untilMs) {
      const event = events.find(({ at, n }) => at >= anchor.atMs && n > anchor.n);
      if (event === undefined || event.at > untilMs) {
        const next = event === undefined ? 'it did not happen' : `it happened only at ${clock(index, event.at)}`;
        return { came: false, seen: `${next} after ${clock(index, anchor.atMs)}`, atMs: untilMs, n: event?.n ?? 0 };
      }
      return { came: true, seen: `it happened at ${clock(index, event.at)}`, atMs: event.at, n: event.n };
    },
  };
}

function watchClaim(index: TraceIndex, claim: Claim): Watched {
  const read = readClaim(index, claim);
  return {
    expected: read.expected,
    devices: read.devices,
    outcome(anchor, untilMs) {
      const moments = read.between(anchor.atMs, untilMs + 1);
      const holding = moments.find((moment) => moment.holds);
      const shown = holding ?? moments.at(-1) ?? read.at(untilMs);
      const atMs = Math.max(anchor.atMs, shown.atMs);
      return { came: holding !== undefined, seen: seenText(index, shown), atMs, n: shown.n };
    },
  };
}
