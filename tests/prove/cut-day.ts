// The day on which power fails at every byte: bursts of 90 s with pauses, and a handover in the middle.
import type { Day, DayEvent } from '../../src/scenario/day.js';
import { dayOf, MINUTE, pair, run, SECOND, tool, worker } from '../rig/day.js';

/** bursts: of 90 s, one every two minutes; 160 of them are four hours of trigger time. */
export function cutDay(bursts: number): Day {
  const half = Math.floor(bursts / 2);
  const runs = Array.from(
    { length: bursts },
    (_, index): DayEvent => run((2 * index + 1) * MINUTE, 'saw', index < half ? 'Edda' : 'Bram', 90 * SECOND),
  );
  const handover = pair((2 * half + 1) * MINUTE - 25 * SECOND, 'saw', 'Bram');
  return dayOf(
    [tool('saw', 100)],
    [worker('Edda'), worker('Bram')],
    [pair(10 * SECOND, 'saw', 'Edda'), ...runs, handover],
    {
      untilMs: (2 * bursts + 2) * MINUTE,
    },
  );
}
