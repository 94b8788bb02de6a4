// What the files of the counter share: its state, its journal and its ways to act.
import type { Journal } from '../journal/journal.js';
import type { Message } from '../link/pairing-messages.js';
import type { CounterBoard } from '../port/port.js';
import type { CounterEvent } from './chart.js';
import type { CounterState } from './state.js';

export interface Parts {
  state: CounterState;
  journal: Journal;
  readonly board: CounterBoard;
  /** Sends a frame, unless the counter sleeps. */
  transmit(frame: Uint8Array, to: number, meaning: Message): void;
  nowMs(): number;
  send(event: CounterEvent): void;
  post(delayMs: number, event: CounterEvent): void;
}
