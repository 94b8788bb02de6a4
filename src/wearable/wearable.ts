// The wearable: its statechart, fed with inputs, frames and time. This shell passes things on; what is decided stands in the
// chart, what is computed in the files beside it. Times are ms of its own clock since its boot.
import type { Message } from '../link/messages.js';
import type { ChartEvent, Engine, EngineMaker } from '../port/engine.js';
import type { WearableInner } from '../port/inner.js';
import { type WearableEvent, wearableMachine } from './chart.js';
import { effectsOf, guardsOf } from './effects.js';
import { displayOf, type Face, faceOf } from './face.js';
import { inRisingOrder, type Level } from './levels.js';
import type { Parts, WearableBoard } from './parts.js';
import { take } from './receive.js';
import { freshState, type Shift } from './state.js';

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

  constructor(board: WearableBoard, inner: WearableInner, makeEngine: EngineMaker) {
    this.parts = {
      state: freshState(0),
      levels: [],
      board,
      inner,
      nowMs: () => this.engine.nowMs,
      send: (event) => this.engine.send(event as ChartEvent),
      post: (delayMs, event) => this.engine.post(delayMs, event as ChartEvent),
    };
    this.engine = makeEngine({
      machine: wearableMachine,
      guards: guardsOf(this.parts),
      effects: effectsOf(this.parts),
      onState: (region, state) => inner.state(region, state),
    });
  }

  /** id: unique among the devices of a bench, 1..65535. */
  boot(id: number, levels: readonly Level[]): void {
    this.parts.state = freshState(id);
    this.parts.levels = inRisingOrder(levels);
    this.engine.start();
    this.refresh();
  }

  input(input: WearableInput): void {
    const event: WearableEvent =
      input.input === 'touch' ? { type: 'TOUCH', peer: input.peer } : { type: EVENT_OF[input.input] };
    this.parts.send(event);
    this.refresh();
  }

  receive(message: Message, from: number): void {
    const reason = take(this.parts, message, from);
    if (reason !== '') this.parts.board.refused(message, from, reason);
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
  fork(board: WearableBoard, inner: WearableInner): Wearable {
    const copy = new Wearable(board, inner, (chart) => this.engine.fork(chart));
    copy.parts.state = structuredClone(this.parts.state);
    copy.parts.levels = this.parts.levels;
    copy.shown = this.shown;
    return copy;
  }

  /** All that decides how the device goes on, for digests. */
  inside(): object {
    return [this.parts.state, this.engine.inside()];
  }

  private refresh(): void {
    const { face, shown } = this;
    faceOf(this.parts.state, this.parts.levels, this.engine.state('pairing'), face);
    if (shown?.icons === face.icons && shown.value === face.value && shown.screen === face.screen) return;
    this.shown = { ...face };
    this.parts.board.show(displayOf(face));
  }
}
