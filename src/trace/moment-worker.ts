// What a moment holds of a worker: what the wearable has on its ledger and shows, and whether it is within reach.
import type { Display } from '../port/port.js';
import type { EventOf, LevelField, TraceEvent } from './kinds.js';
import { displayOf, isLive } from './moment-display.js';
import { moved } from './moment-place.js';
import { changed } from './named.js';

/** What a wearable has from one session of one counter; dose in u. */
export interface LedgerEntry {
  readonly counter: string;
  readonly session: number;
  /** The shift it is charged to. */
  readonly shift: number;
  readonly dose: number;
  readonly triggerWindows: number;
  readonly unratedWindows: number;
}

/** An alert of the shift; times in ms since the start of the day. */
export interface RaisedAlert {
  readonly level: string;
  readonly atMs: number;
  /** How often it has been repeated since. */
  readonly again: number;
  /** When the wearer tapped it away; null while it is pending. */
  readonly acknowledgedAtMs: number | null;
}

export interface Shift {
  readonly number: number;
  readonly openedAtMs: number;
  /** Null while it is open. */
  readonly closedAtMs: number | null;
  /** Marked for having lasted over 16 h (WEA-3). */
  readonly long: boolean;
  /** Why it is marked incomplete, one reason a counter. */
  readonly incomplete: readonly { readonly counter: string; readonly why: string }[];
}

export interface WorkerMoment {
  readonly name: string;
  readonly levels: readonly LevelField[];
  /** 0: on the site. Else the n of the hand.leave that took it away; what left together stays within reach of each other. */
  readonly place: number;
  /** The open or the last shift; null before the first. */
  readonly shift: Shift | null;
  /** Dose in u that the ledger charges to that shift. */
  readonly dose: number;
  /** Every entry of the ledger, earlier shifts' too. */
  readonly ledger: readonly LedgerEntry[];
  /** The sessions of which it keeps the keys, and the shift that each of them belongs to. */
  readonly keys: readonly Pick<LedgerEntry, 'counter' | 'session' | 'shift'>[];
  /** In the order in which they were raised. */
  readonly alerts: readonly RaisedAlert[];
  /** Null before it first showed anything. */
  readonly display: Display | null;
  /** Counters whose sums it marks as stale. */
  readonly stale: readonly string[];
}

/** The workers after an event. */
export function afterWorker(workers: readonly WorkerMoment[], event: TraceEvent): readonly WorkerMoment[] {
  switch (event.kind) {
    case 'hand.worker':
      return [...workers, arrived(event)];
    case 'hand.leave':
    case 'hand.return':
      return moved(workers, event);
    case 'shown.display':
      return changed(workers, event.by, (one) => ({ ...one, display: displayOf(event) }));
    case 'shown.alert':
      return changed(workers, event.by, (one) => ({ ...one, alerts: afterAlert(one.alerts, event) }));
    case 'shown.mark':
      return changed(workers, event.by, (one) => ({ ...one, stale: afterMark(one.stale, event) }));
    case 'input.tap':
      return changed(workers, event.by, (one) => afterTap(one, event));
    case 'inner.ledger':
      return changed(workers, event.by, (one) => ({ ...one, ...afterEntry(one, event) }));
    case 'inner.paired':
      return changed(workers, event.by, (one) => ({ ...one, keys: afterPairing(one.keys, event) }));
    case 'inner.resumed':
      return changed(workers, event.by, (one) => ({ ...one, ...afterStart(one.shift, event) }));
    case 'inner.shift':
      return changed(workers, event.by, (one) => ({ ...one, ...afterShift(one, event) }));
    case 'inner.incomplete':
      return changed(workers, event.by, (one) => ({ ...one, shift: afterIncomplete(one.shift, event) }));
    default:
      return workers;
  }
}

function arrived(event: EventOf<'hand.worker'>): WorkerMoment {
  return {
    name: event.by,
    levels: event.levels,
    place: 0,
    shift: null,
    dose: 0,
    ledger: [],
    keys: [],
    alerts: [],
    display: null,
    stale: [],
  };
}

function afterAlert(alerts: readonly RaisedAlert[], event: EventOf<'shown.alert'>): readonly RaisedAlert[] {
  const index = alerts.findLastIndex((one) => one.level === event.level);
  const earlier = alerts[index];
  if (event.again > 0 && earlier !== undefined) return alerts.with(index, { ...earlier, again: event.again });
  return [...alerts, { level: event.level, atMs: event.at, again: event.again, acknowledgedAtMs: null }];
}

/** While the digits of a pairing are shown, a tap accepts them and acknowledges no alert (PAI-1); one that sleeps feels none. */
function afterTap(worker: WorkerMoment, tap: EventOf<'input.tap'>): WorkerMoment {
  if (worker.display?.screen === 'digits' || !isLive(worker.display)) return worker;
  const alerts = worker.alerts.map((alert) =>
    alert.acknowledgedAtMs === null ? { ...alert, acknowledgedAtMs: tap.at } : alert,
  );
  return { ...worker, alerts };
}

function afterMark(stale: readonly string[], event: EventOf<'shown.mark'>): readonly string[] {
  const others = stale.filter((counter) => counter !== event.counter);
  return event.on ? [...others, event.counter] : others;
}

function afterEntry(worker: WorkerMoment, event: EventOf<'inner.ledger'>): Pick<WorkerMoment, 'ledger' | 'dose'> {
  const { counter, session, shift, dose, triggerWindows, unratedWindows } = event;
  const entry: LedgerEntry = { counter, session, shift, dose, triggerWindows, unratedWindows };
  const index = worker.ledger.findIndex((one) => one.counter === counter && one.session === session);
  const ledger = index < 0 ? [...worker.ledger, entry] : worker.ledger.with(index, entry);
  // A late dose may belong to an earlier shift than the one that is shown.
  return { ledger, dose: worker.shift?.number === shift ? event.total : worker.dose };
}

function afterPairing(keys: WorkerMoment['keys'], event: EventOf<'inner.paired'>): WorkerMoment['keys'] {
  const { counter, session, shift } = event;
  const others = keys.filter((key) => key.counter !== counter || key.session !== session);
  return [...others, { counter, session, shift }];
}

/** A wearable that has started tells of its newest shift, as its journal has it. */
function afterStart(known: Shift | null, event: EventOf<'inner.resumed'>): Pick<WorkerMoment, 'shift' | 'dose'> {
  const { shift: number, open, dose, at } = event;
  const opened = { number, openedAtMs: at, closedAtMs: null, long: false, incomplete: [] };
  const shift = known?.number === number ? known : opened;
  return { shift: { ...shift, closedAtMs: open ? null : (shift.closedAtMs ?? at) }, dose };
}

function afterShift(worker: WorkerMoment, event: EventOf<'inner.shift'>): Partial<WorkerMoment> {
  if (event.what === 'opened') {
    const shift = { number: event.shift, openedAtMs: event.at, closedAtMs: null, long: false, incomplete: [] };
    return { shift, dose: 0, alerts: [] };
  }
  if (worker.shift?.number !== event.shift) return {};
  if (event.what === 'long') return { shift: { ...worker.shift, long: true } };
  return { shift: { ...worker.shift, closedAtMs: event.at } };
}

function afterIncomplete(shift: Shift | null, event: EventOf<'inner.incomplete'>): Shift | null {
  if (shift?.number !== event.shift) return shift;
  return { ...shift, incomplete: [...shift.incomplete, { counter: event.counter, why: event.why }] };
}
