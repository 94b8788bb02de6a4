// The counter's cell (CEL-1): below the safe voltage no flash operation starts. What cannot be kept must not be counted, so the
// counter sleeps then, looks at its cell again at growing intervals, and wakes once the voltage holds.
import { nextLookMs } from '../port/cell.js';
import { keepSums, settle } from './journal.js';
import type { Parts } from './parts.js';

export function sleep(parts: Parts): void {
  const { state, journal, send, board } = parts;
  state.asleep = true;
  state.looks = 0;
  // Whatever the tool does meanwhile, nobody will ever know: the shift is marked.
  if (state.open !== null) state.open.powerLost = true;
  journal.hold(true);
  if (state.detector.running) {
    board.inner.count(state.open?.session ?? 0, state.open?.sums ?? state.unclaimed);
    send({ type: 'STOPPED' });
  }
  state.detector = { running: false, pending: 0 };
  lookLater(parts);
}

export function lookLater({ state, post }: Parts): void {
  post(nextLookMs(state), { type: 'CELL_CHECK' });
}

export function wake(parts: Parts): void {
  const { state, journal, send } = parts;
  state.asleep = false;
  journal.hold(false);
  settle(parts);
  if (state.open === null) keepSums(parts);
  else send({ type: 'OPENED' });
}
