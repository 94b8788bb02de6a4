// The wearable's cell (CEL-1): below the safe voltage no flash operation starts. What cannot be kept must not be taken in, so the
// wearable sleeps then, looks at its cell again at growing intervals, and wakes once the voltage holds.
import { nextLookMs } from '../port/cell.js';
import { settle } from './journal.js';
import type { Parts } from './parts.js';

export function sleep(parts: Parts): void {
  const { state, journal } = parts;
  state.asleep = true;
  state.looks = 0;
  journal.hold(true);
  lookLater(parts);
}

export function lookLater({ state, post }: Parts): void {
  post(nextLookMs(state), { type: 'CELL_CHECK' });
}

export function wake(parts: Parts): void {
  const { state, journal } = parts;
  state.asleep = false;
  journal.hold(false);
  settle(parts);
}
