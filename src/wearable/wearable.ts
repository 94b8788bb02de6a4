// The wearable: its statechart, fed with inputs, frames and time. This shell passes things on; what is decided stands in the
// chart, what is computed in the files beside it. Times are ms of its own clock since its boot.
import { Journal } from '../journal/journal.js';
import { isPoor } from '../port/cell.js';
import type { ChartEvent, Engine, EngineMaker } from '../port/engine.js';
import { levelsPassed } from './alerts.js';
import { WEARABLE_DELAYS_MS, type WearableEvent, wearableMachine } from './chart.js';
import { effectsOf, guardsOf } from './effects.js';
import { displayOf, type Face, faceOf } from './face.js';
import { recover } from './journal.js';
import { inRisingOrder, type Level } from './levels.js';
import type { Parts, WearableBoard } from './parts.js';
import { take } from './receive.js';
import { shownShift } from './shifts.js';
import { freshState, type Shift } from './state.js';
import { newestOf } from './watch.js';

export type WearableInput =
  | { readonly input: 'tap' | 'close' | 'readout' }
  /** A counter touches the wearable; peer is its identity. */
  | { readonly input: 'touch'; readonly peer: number };

const EVENT_OF = { tap: 'TAP', close: 'CLOSE', readout: 'READOUT' } as const;

export class Wearable {
  private readonly parts: Parts;
  private readonly engine: Engine;
  private readonly face: Face = { screen: '', value: -1, icons: 0 };
  private shown: Face | null = null;

  constructor(board: WearableBoard, makeEngine: EngineMaker, journal = Journal.open(board.flash)) {
    this.parts = {
      state: freshState(0, 0),
      journal,
      levels: [],
      board,
      transmit: (frame, to, meaning) => {
        if (!this.parts.state.asleep) board.send(frame, to, meaning);
      },
      nowMs: () => this.engine.nowMs,
      send: (event) => this.engine.send(event as ChartEvent),
      post: (delayMs, event) => this.engine.post(delayMs, event as ChartEvent),
    };
    this.engine = makeEngine({
      machine: wearableMachine,
      guards: guardsOf(this.parts),
      effects: effectsOf(this.parts),
      onState: (region, state) => board.inner.state(region, state),
    });
  }

  /** id: unique among the devices of a bench, 1..65535; cellMv: voltage of the cell under working load. */
  boot(id: number, levels: readonly Level[], cellMv: number): void {
    const { parts } = this;
    const { board, journal } = parts;
    parts.state = freshState(id, cellMv);
    parts.levels = inRisingOrder(levels);
    const poor = isPoor(parts.state);
    journal.hold(poor);
    this.engine.start();
    recover(parts);
    this.tellFound();
    board.inner.recovered(journal.counts());
    if (poor) parts.send({ type: 'CELL_LOW' });
    this.resume();
    this.refresh();
  }

  input(input: WearableInput): void {
    if (this.parts.state.asleep) return;
    const event: WearableEvent =
      input.input === 'touch' ? { type: 'TOUCH', peer: input.peer } : { type: EVENT_OF[input.input] };
    this.parts.send(event);
    this.refresh();
  }

  /** Voltage of the cell under working load, in mV, whenever it has changed. */
  cell(millivolts: number): void {
    const { parts } = this;
    parts.state.cellMv = millivolts;
    if (isPoor(parts.state) && !parts.state.asleep) parts.send({ type: 'CELL_LOW' });
    this.refresh();
  }

  receive(frame: Uint8Array): void {
    if (this.parts.state.asleep) return;
    const reason = take(this.parts, frame);
    if (reason !== '') this.parts.board.refused(reason);
    this.refresh();
  }

  /** Runs to toMs, doing everything due up to and including it, and returns the time of the next deadline (Infinity: none). */
  advance(toMs: number): number {
    for (let dueMs = this.engine.nextMs(); dueMs <= toMs; dueMs = this.engine.nextMs()) {
      this.engine.runTo(dueMs);
      this.refresh();
    }
    this.engine.moveTo(toMs);
    return this.engine.nextMs();
  }

  /** The shifts that are kept, oldest first. */
  observe(): readonly Shift[] {
    return this.parts.state.shifts.map((shift) => ({ ...shift }));
  }

  /** A copy that goes on from here, on another board. */
  fork(board: WearableBoard): Wearable {
    const copy = new Wearable(board, (chart) => this.engine.fork(chart), this.parts.journal.fork(board.flash));
    copy.parts.state = structuredClone(this.parts.state);
    copy.parts.levels = this.parts.levels;
    copy.shown = this.shown;
    return copy;
  }

  /** All that decides how the device goes on, for digests. */
  inside(): object {
    return [this.parts.state, this.parts.journal.inside(), this.engine.inside()];
  }

  private tellFound(): void {
    const { state, board } = this.parts;
    const newest = shownShift(state);
    if (newest !== undefined) board.inner.resumed(newest.shift, state.shiftOpen, newest.dose);
    for (const link of state.links) {
      if (!link.confirmed) board.inner.paired(link.counter, link.session, link.shift);
      else board.inner.ledger(link, state.shifts.find(({ shift }) => shift === link.shift)?.dose ?? 0);
    }
  }

  /** WEA-5: what the journal holds goes on where it was. */
  private resume(): void {
    const { parts } = this;
    const { state, board } = parts;
    for (const link of state.links) {
      if (link.stale && newestOf(state, link.counter) === link) board.mark(link.counter, 'stale', true);
    }
    const shift = shownShift(state);
    if (shift === undefined) return;
    state.passed = levelsPassed(parts, shift.dose);
    parts.send({ type: 'RESUMED' });
    const toLongMs = shift.openedMs + WEARABLE_DELAYS_MS.longShift;
    if (state.shiftOpen && toLongMs < WEARABLE_DELAYS_MS.longShift) {
      parts.post(Math.max(0, toLongMs), { type: 'LONG', shift: shift.shift });
    }
  }

  private refresh(): void {
    const { face, shown } = this;
    faceOf(this.parts, this.engine.state('pairing'), face);
    if (shown?.icons === face.icons && shown.value === face.value && shown.screen === face.screen) return;
    this.shown = { ...face };
    this.parts.board.show(displayOf(face));
  }
}
