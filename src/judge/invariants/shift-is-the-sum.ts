// Guards WEA-1: the dose of a shift is the sum over its entries of the ledger, exactly.
import { MAX_DOSE } from '../../exposure/dose.js';
import { getOrMake } from './get-or-make.js';
import type { Invariant } from './invariant.js';

export const shiftIsTheSum: Invariant = {
  name: "a shift's dose is the sum over the ledger",
  guards: ['WEA-1'],
  watch: (facts) => {
    /** By worker, then by shift. */
    const sums = new Map<string, Map<number, number>>();
    return {
      on: {
        'inner.ledger': (event) => {
          const shifts = getOrMake(sums, event.by, newSums);
          const session = facts.session(event.counter, event.session);
          const before = session?.chargedTo === event.by ? session.charged.dose : 0;
          const sum = (shifts.get(event.shift) ?? 0) + event.dose - before;
          shifts.set(event.shift, sum);
          if (event.total === Math.min(sum, MAX_DOSE)) return undefined;
          return `shift ${event.shift} of ${event.by} has ${event.total} u, its entries add up to ${sum} u`;
        },
      },
    };
  },
};

function newSums(): Map<number, number> {
  return new Map();
}
