// The clock that XState actors get: their delayed events become deadlines of a virtual clock.
import type { Deadline, VirtualClock } from './clock.js';

type Callback = () => void;

/** Has the shape of XState's `clock` option. Delays are whole ms. */
export function actorClock(clock: VirtualClock<Callback>): {
  setTimeout(callback: Callback, delayMs: number): Deadline<Callback>;
  clearTimeout(deadline: Deadline<Callback> | undefined): void;
} {
  return {
    setTimeout: (callback, delayMs) => clock.arm(delayMs, callback),
    clearTimeout: (deadline) => {
      if (deadline !== undefined) clock.cancel(deadline);
    },
  };
}
