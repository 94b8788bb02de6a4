// Guards KEP-3: the reports of a counter tell how often it has lost its power: as often as it has, and not more. A start is counted
// once the journal holds it; one that fails at once, or on a poor cell, may never be.
import type { Facts } from './facts.js';
import { getOrMake } from './get-or-make.js';
import type { Invariant } from './invariant.js';

/** Power losses that a counter must have counted by its last start, and may have. */
interface Losses {
  least: number;
  most: number;
  /** It has told its journal that it was on; before that no loss is one. */
  isKept: boolean;
}

export const lossesAreTold: Invariant = {
  name: 'a report tells how often power was lost',
  guards: ['KEP-3'],
  watch: (facts) => {
    const counters = new Map<string, Losses>();
    const of = (counter: string) => getOrMake(counters, counter, newLosses);
    return {
      on: {
        'fault.cut': (event) => {
          const { on, startedMs } = facts.device(event.by);
          if (!on || !facts.counters.has(event.by)) return undefined;
          of(event.by).isKept ||= isKept(facts, event.by, event.at, event.during, startedMs);
          return undefined;
        },
        'fault.lifted': (event) => {
          if (event.what !== 'power' || !facts.counters.has(event.by)) return undefined;
          const losses = of(event.by);
          losses.most += 1;
          if (losses.isKept) losses.least += 1;
          losses.isKept = false;
          return undefined;
        },
        'air.report': (event) => {
          const { least, most } = of(event.by);
          // What a session was sealed with is told as it was then.
          const isOld = facts.session(event.by, event.session)?.state !== 'opened';
          if ((isOld || event.powerLosses >= least) && event.powerLosses <= most) return undefined;
          const known = least === most ? `${most}` : `${least} to ${most}`;
          return `${event.by} reports ${event.powerLosses} power losses, and has had ${known}`;
        },
      },
    };
  },
};

/** Whether what it wrote down at its start was kept when its power failed. */
function isKept(facts: Facts, name: string, atMs: number, during: string, startedMs: number): boolean {
  const device = facts.device(name);
  if (device.unkeptSinceMs(atMs) <= startedMs) return false;
  return atMs > startedMs || (during !== 'write' && during !== 'erase');
}

function newLosses(): Losses {
  return { least: 0, most: 0, isKept: false };
}
