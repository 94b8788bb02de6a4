// What the files of the counter share: its state and its ways to act.
import type { CounterInner } from '../port/inner.js';
import type { Board } from '../port/port.js';
import type { CounterEvent } from './chart.js';
import type { CounterState } from './state.js';

export interface Parts {
  state: CounterState;
  readonly board: Board;
  readonly inner: CounterInner;
  nowMs(): number;
  send(event: CounterEvent): void;
}
