// What a moment holds of a tool: what truly happens to it, and what its counter has counted, for whom.
// Firmware sends no inner. events, so whatever its tallies tell is taken from them as well.
import type { Display } from '../port/port.js';
import type { EventOf, TraceEvent } from './kinds.js';
import { displayOf } from './moment-display.js';
import { moved } from './moment-place.js';
import { changed } from './named.js';

/** What a counter has counted; dose in u, windows of 100 ms. */
export interface Sums {
  readonly dose: number;
  readonly triggerWindows: number;
  readonly unratedWindows: number;
}

export interface SessionMoment extends Sums {
  readonly number: number;
  /** The worker whose wearable opened it. */
  readonly owner: string;
  /** Ms since the start of the day. */
  readonly openedAtMs: number;
  /** "opened", "sealed" (kept, on its way), "delivered", "read out", or "undone" (power failed before it was kept). */
  readonly state: string;
}

export interface ToolMoment {
  readonly name: string;
  readonly character: string;
  /** What the tool truly makes, tenths of m/s². */
  readonly trueTenths: number;
  /** What its counter is set to, tenths of m/s²; 0 for nothing. */
  readonly setTenths: number;
  /** 0: on the site. Else the n of the hand.leave that took it away; what left together stays within reach of each other. */
  readonly place: number;
  /** Who truly runs it, since when; held false: it runs but lies on the ground. Null: at rest. */
  readonly running: { readonly by: string; readonly held: boolean; readonly sinceMs: number } | null;
  /** It lies in a van that drives: shaken, though nobody runs it. */
  readonly carried: boolean;
  /** In the order of their numbers. */
  readonly sessions: readonly SessionMoment[];
  /** Counted outside any session. */
  readonly unclaimed: Sums;
  /** Null before it first showed anything. */
  readonly display: Display | null;
}

const NOTHING: Sums = { dose: 0, triggerWindows: 0, unratedWindows: 0 };

/** The tools after an event. */
export function afterTool(tools: readonly ToolMoment[], event: TraceEvent): readonly ToolMoment[] {
  switch (event.kind) {
    case 'hand.tool':
      return [...tools, brought(event)];
    case 'hand.start':
      return changed(tools, event.tool, (one) => ({
        ...one,
        running: { by: event.by, held: event.held, sinceMs: event.at },
      }));
    case 'hand.stop':
      return changed(tools, event.tool, (one) => ({ ...one, running: null }));
    case 'hand.carry':
    case 'hand.arrive':
      return changed(tools, event.by, (one) => ({ ...one, carried: event.kind === 'hand.carry' }));
    case 'hand.leave':
    case 'hand.return':
      return moved(tools, event);
    case 'shown.display':
      return changed(tools, event.by, (one) => ({ ...one, display: displayOf(event) }));
    case 'inner.magnitude':
      return changed(tools, event.by, (one) => ({ ...one, setTenths: event.tenths }));
    case 'fault.lifted':
      return event.what === 'power' ? changed(tools, event.by, afterStart) : tools;
    case 'inner.session':
    case 'inner.found':
      return changed(tools, event.by, (one) => ({ ...one, sessions: afterSession(one.sessions, event) }));
    case 'inner.count':
      return changed(tools, event.by, (one) =>
        event.session === 0 ? { ...one, unclaimed: sumsOf(event) } : { ...one, sessions: counted(one.sessions, event) },
      );
    case 'air.tally':
      return changed(tools, event.by, (one) => afterTally(one, event));
    default:
      return tools;
  }
}

/** The session that is open on a tool's counter; undefined where there is none. */
export function openSession(tool: ToolMoment): SessionMoment | undefined {
  const last = tool.sessions.at(-1);
  return last?.state === 'opened' ? last : undefined;
}

function brought(event: EventOf<'hand.tool'>): ToolMoment {
  return {
    name: event.by,
    character: event.character,
    trueTenths: event.magnitudeTenths,
    setTenths: event.keyedTenths,
    place: 0,
    running: null,
    carried: false,
    sessions: [],
    unclaimed: NOTHING,
    display: null,
  };
}

function sumsOf({ dose, triggerWindows, unratedWindows }: Sums): Sums {
  return { dose, triggerWindows, unratedWindows };
}

/** The counter has started: what it has of what it had counted for its open session, or for nobody, it tells next. */
function afterStart(tool: ToolMoment): ToolMoment {
  const sessions = tool.sessions.map((one) => (one.state === 'opened' ? { ...one, state: 'undone', ...NOTHING } : one));
  return { ...tool, sessions, unclaimed: NOTHING };
}

function afterSession(
  sessions: readonly SessionMoment[],
  event: EventOf<'inner.session'> | EventOf<'inner.found'>,
): readonly SessionMoment[] {
  const index = sessions.findIndex((one) => one.number === event.session);
  const known = sessions[index];
  if (known === undefined)
    return [
      ...sessions,
      { number: event.session, owner: event.with, openedAtMs: event.at, state: event.what, ...NOTHING },
    ];
  return sessions.with(index, { ...known, state: event.what });
}

function counted(sessions: readonly SessionMoment[], event: EventOf<'inner.count'>): readonly SessionMoment[] {
  return sessions.map((one) => (one.number === event.session ? { ...one, ...sumsOf(event) } : one));
}

function afterTally(tool: ToolMoment, event: EventOf<'air.tally'>): ToolMoment {
  const last = tool.sessions.at(-1)?.number ?? 0;
  const sessions =
    event.session > last
      ? [
          ...tool.sessions,
          { number: event.session, owner: event.to, openedAtMs: event.at, state: 'opened', ...sumsOf(event) },
        ]
      : tool.sessions.map((one) => (one.number === event.session ? told(one, event) : one));
  // Only the newest session's tally tells what the counter is set to now.
  const setTenths = event.session >= last ? event.magnitudeTenths : tool.setTenths;
  return { ...tool, sessions, setTenths };
}

/** An old frame that is resent changes nothing. */
function told(known: SessionMoment, event: EventOf<'air.tally'>): SessionMoment {
  if (known.triggerWindows > event.triggerWindows) return known;
  return { ...known, state: known.state === 'undone' ? 'opened' : known.state, ...sumsOf(event) };
}
