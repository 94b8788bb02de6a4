// What the files of the wearable share: its state, its journal, the levels it watches, and its ways to act.
import type { Journal } from '../journal/journal.js';
import type { AlertLevel } from '../link/messages.js';
import type { Message } from '../link/pairing-messages.js';
import type { WearableInner } from '../port/inner.js';
import type { Board } from '../port/port.js';
import type { WearableEvent } from './chart.js';
import type { Level } from './levels.js';
import type { WearableState } from './state.js';

/** What the wearable can do to the world. */
export interface WearableBoard extends Board {
  readonly inner: WearableInner;
  /** again: 0 for the first call of a level, then the number of the repetition. */
  alert(level: AlertLevel, again: number): void;
  mark(counter: number, mark: 'stale', on: boolean): void;
}

export interface Parts {
  state: WearableState;
  journal: Journal;
  /** In rising order. */
  levels: readonly Level[];
  readonly board: WearableBoard;
  /** Sends a frame, unless the wearable sleeps. */
  transmit(frame: Uint8Array, to: number, meaning: Message): void;
  nowMs(): number;
  send(event: WearableEvent): void;
  post(delayMs: number, event: WearableEvent): void;
}
