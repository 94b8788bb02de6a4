// Hand-made traces for the judge's tests: a day with two tools and two workers, and short ways to add valid events to it.
import type { Fields, Kind, LevelField } from '../../src/trace/kinds.js';
import { Recorder } from '../../src/trace/recorder.js';

export const SEVEN_MS = 7 * 3_600_000;
export const MINUTE = 60_000;
export const POINT = 180_000_000;

export const LEVELS: readonly LevelField[] = [
  { compare: 'reached', level: 'notice', points: 80 },
  { compare: 'reached', level: 'action', points: 100 },
  { compare: 'exceeded', level: 'limit', points: 400 },
];

type Some<K extends Kind> = Partial<Fields<K>>;

/** A day from 07:00 for ten hours: breaker (12.0 m/s², keyed so) and saw (5.0 m/s², not keyed), Edda and Bram. */
export class DayTrace {
  readonly recorder = new Recorder();

  constructor(untilMs = 10 * 3_600_000) {
    this.add(0, 'bench', 'hand.day', { fromMs: SEVEN_MS, regime: 'gb-2005', seed: 7, untilMs });
    this.add(0, 'breaker', 'hand.tool', { character: 'percussive', keyedTenths: 120, magnitudeTenths: 120 });
    this.add(0, 'saw', 'hand.tool', { character: 'rotary', keyedTenths: 0, magnitudeTenths: 50 });
    this.add(0, 'Edda', 'hand.worker', { levels: LEVELS });
    this.add(0, 'Bram', 'hand.worker', { levels: LEVELS });
  }

  get events() {
    return this.recorder.events;
  }

  add<K extends Kind>(at: number, by: string, kind: K, fields: Fields<K>, cause = 0): number {
    return this.recorder.add(at, by, kind, cause, fields);
  }

  start(at: number, tool = 'breaker', by = 'Edda') {
    return this.add(at, by, 'hand.start', { held: true, tool });
  }

  stop(at: number, tool = 'breaker', by = 'Edda') {
    return this.add(at, by, 'hand.stop', { tool });
  }

  session(
    at: number,
    what: 'opened' | 'sealed' | 'delivered' | 'read out',
    session = 1,
    worker = 'Edda',
    tool = 'breaker',
  ) {
    return this.add(at, tool, 'inner.session', { session, what, with: worker });
  }

  shift(at: number, what: 'opened' | 'closed' | 'long', shift = 1, worker = 'Edda') {
    return this.add(at, worker, 'inner.shift', { shift, what });
  }

  /** windows at 12.0 m/s² unless fields say otherwise. */
  count(at: number, triggerWindows: number, fields: Some<'inner.count'> = {}, tool = 'breaker') {
    const sums = { dose: triggerWindows * 1_440_000, session: 1, shortBursts: 0, triggerWindows, unratedWindows: 0 };
    return this.add(at, tool, 'inner.count', { ...sums, ...fields });
  }

  tally(at: number, triggerWindows: number, fields: Some<'air.tally'> = {}, tool = 'breaker') {
    const sums = { dose: triggerWindows * 1_440_000, triggerWindows, unratedWindows: 0 };
    const header = { cell: 3, flags: 0, link: 9, magnitudeTenths: 120, sequence: 1, session: 1, to: 'Edda' };
    return this.add(at, tool, 'air.tally', { ...header, ...sums, ...fields });
  }

  heard(at: number, cause: number, fields: Some<'air.heard'> = {}, by = 'Edda') {
    return this.add(at, by, 'air.heard', { frame: 'tally', from: 'breaker', ...fields }, cause);
  }

  /** An entry of Edda's ledger; total is its dose unless fields say otherwise. */
  ledger(at: number, triggerWindows: number, fields: Some<'inner.ledger'> = {}, by = 'Edda') {
    const dose = fields.dose ?? triggerWindows * 1_440_000;
    const entry = { counter: 'breaker', dose, session: 1, shift: 1, total: dose, triggerWindows, unratedWindows: 0 };
    return this.add(at, by, 'inner.ledger', { ...entry, ...fields });
  }

  alert(at: number, level: string, again = 0, by = 'Edda') {
    return this.add(at, by, 'shown.alert', { again, level });
  }

  display(at: number, by: string, fields: Some<'shown.display'> = {}) {
    return this.add(at, by, 'shown.display', { icons: [], screen: 'points', second: -1, value: -1, ...fields });
  }
}
