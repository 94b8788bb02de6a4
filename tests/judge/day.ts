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
type SessionTurn = 'opened' | 'sealed' | 'delivered' | 'read out';

/** Bytes of a frame, others for each that is numbered otherwise. */
function bytesOf(by: string, session: number, sequence: number): string {
  return [by.length, session, sequence].map((number) => number.toString(16).padStart(8, '0')).join('');
}

/** A day from 07:00 for ten hours: breaker (12.0 m/s², keyed so) and saw (5.0 m/s², not keyed), Edda and Bram. */
export class DayTrace {
  readonly recorder = new Recorder();
  /** Number of each worker's newest shift, and whether it is open. */
  private readonly shifts = new Map<string, { shift: number; open: boolean }>();
  /** Windows that the journals hold, by tool and session. */
  private readonly held = new Map<string, number>();

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

  /**
   * One that is opened has been accepted by both, and its key is kept for the shift that is open, or the next; one that is
   * delivered is acknowledged.
   */
  session(at: number, what: SessionTurn, session = 1, worker = 'Edda', tool = 'breaker') {
    let cause = 0;
    if (what === 'opened') cause = this.accept(at, session, worker, tool);
    // As high as any number that a test gives out.
    if (what === 'delivered') cause = this.heardAck(at, 999, { link: 900 + session, sequence: at, to: tool }, worker);
    return this.add(at, tool, 'inner.session', { session, what, with: worker }, cause);
  }

  pair(at: number, session = 1, worker = 'Edda', tool = 'breaker', cause = 0) {
    const { shift, open } = this.shifts.get(worker) ?? { shift: 0, open: false };
    return this.add(at, worker, 'inner.paired', { counter: tool, session, shift: open ? shift : shift + 1 }, cause);
  }

  /** Returns the n of the last accept as it is heard. */
  private accept(at: number, session: number, worker: string, tool: string): number {
    const asked = this.heard(at, this.pairing(at, 'accept', tool, worker), { frame: 'accept', from: tool }, worker);
    this.pair(at, session, worker, tool, asked);
    return this.heard(at, this.pairing(at, 'accept', worker, tool), { frame: 'accept', from: worker }, tool);
  }

  found(at: number, what: 'opened' | 'sealed', session = 1, worker = 'Edda', tool = 'breaker') {
    return this.add(at, tool, 'inner.found', { session, what, with: worker });
  }

  shift(at: number, what: 'opened' | 'closed' | 'long', shift = 1, worker = 'Edda') {
    this.shifts.set(worker, { shift, open: what !== 'closed' });
    return this.add(at, worker, 'inner.shift', { shift, what });
  }

  /** windows at 12.0 m/s² unless fields say otherwise. */
  count(at: number, triggerWindows: number, fields: Some<'inner.count'> = {}, tool = 'breaker') {
    const sums = { dose: triggerWindows * 1_440_000, session: 1, shortBursts: 0, triggerWindows, unratedWindows: 0 };
    return this.add(at, tool, 'inner.count', { ...sums, ...fields });
  }

  kept(at: number, triggerWindows: number, fields: Some<'inner.kept'> = {}, tool = 'breaker') {
    this.held.set(`${tool} ${fields.session ?? 1}`, triggerWindows);
    const sums = { dose: triggerWindows * 1_440_000, session: 1, triggerWindows, unratedWindows: 0 };
    return this.add(at, tool, 'inner.kept', { ...sums, ...fields });
  }

  /** What it tells is kept first, unless `keeps` says otherwise. */
  tally(at: number, triggerWindows: number, fields: Some<'air.tally'> = {}, tool = 'breaker', keeps = true) {
    const sums = { dose: triggerWindows * 1_440_000, triggerWindows, unratedWindows: 0 };
    const header = { cell: 3, flags: 0, link: 9, magnitudeTenths: 120, sequence: 1, session: 1, to: 'Edda' };
    const tally = { ...header, ...sums, ...fields };
    if (keeps && (this.held.get(`${tool} ${tally.session}`) ?? -1) < triggerWindows) {
      const { dose, session, unratedWindows } = tally;
      this.kept(at, triggerWindows, { dose, session, unratedWindows }, tool);
    }
    const bytes = bytesOf(tool, tally.session, tally.sequence);
    return this.add(at, tool, 'air.tally', { ...tally, bytes: fields.bytes ?? bytes });
  }

  report(at: number, fields: Some<'air.report'> = {}, tool = 'breaker') {
    const header = { bytes: '', link: 9, sequence: 1, session: 1, to: 'Edda' };
    const sums = { powerLosses: 0, shortBursts: 0, unclaimedDose: 0, unclaimedWindows: 0 };
    return this.add(at, tool, 'air.report', { ...header, ...sums, ...fields });
  }

  ack(at: number, highest: number, fields: Some<'air.ack'> = {}, by = 'Edda') {
    const bytes = bytesOf(by, fields.link ?? 9, fields.sequence ?? 1);
    const header = { bytes, link: 9, sequence: 1, to: 'breaker' };
    const ack = { closed: false, highest, highestReport: 0, leftTenths: 5, level: 0 };
    return this.add(at, by, 'air.ack', { ...header, ...ack, ...fields });
  }

  heardAck(at: number, highest: number, fields: Some<'air.ack'> = {}, by = 'Edda') {
    const to = fields.to ?? 'breaker';
    return this.heard(at, this.ack(at, highest, fields, by), { frame: 'ack', from: by }, to);
  }

  pairing(at: number, frame: string, by: string, to: string) {
    return this.add(at, by, 'air.pairing', { bytes: bytesOf(by, at, frame.length), frame, to });
  }

  cut(at: number, by: string, during = 'now') {
    this.add(at, by, 'fault.cut', { during });
    this.display(at, by, { screen: 'dark' });
  }

  /** Power is back: what the device finds is told from now on, until recovered(). */
  back(at: number, by: string) {
    return this.add(at, by, 'fault.lifted', { what: 'power' });
  }

  recovered(at: number, by: string) {
    return this.add(at, by, 'flash.recovered', { records: 1, retired: 0, torn: 0 });
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
