// Guards WEA-1 and WEA-5: the dose of a shift is the sum over its entries of the ledger, exactly. A wearable that starts again says
// of each of its entries what it has of it, and with the last of them the sums must be right again.
import { MAX_DOSE } from '../../exposure/dose.js';
import type { EventOf } from '../../trace/kinds.js';
import type { Facts } from './facts.js';
import { getOrMake } from './get-or-make.js';
import type { Invariant } from './invariant.js';
import { MOST_ENTRIES } from './worker-facts.js';

/** A shift of a worker: what its entries add up to, and what the wearable says that they do. */
interface Sum {
  entries: number;
  total: number;
}

/** By number of the shift. */
type Shifts = Map<number, Sum>;

export const shiftIsTheSum: Invariant = {
  name: "a shift's dose is the sum over the ledger",
  guards: ['WEA-1', 'WEA-5'],
  watch: (facts) => {
    const workers = new Map<string, Shifts>();
    const of = (worker: string) => getOrMake(workers, worker, newShifts);
    return {
      on: {
        'inner.ledger': (event) => add(facts, of(event.by), event),
        'fault.lifted': (event) => {
          // Its entries are told anew.
          if (event.what === 'power') for (const sum of of(event.by).values()) sum.entries = 0;
          return undefined;
        },
        'flash.recovered': ({ by }) => {
          if (!facts.device(by).starting) return undefined;
          const isWhole = (facts.workers.get(by)?.keys.size ?? 0) < MOST_ENTRIES;
          for (const [shift, sum] of of(by)) {
            if (!isWhole) sum.entries = sum.total;
            const wrong = sum.entries === 0 ? undefined : wrongText(by, shift, sum);
            if (wrong !== undefined) return wrong;
          }
          return undefined;
        },
      },
    };
  },
};

function add(facts: Facts, shifts: Shifts, event: EventOf<'inner.ledger'>): string | undefined {
  const { starting } = facts.device(event.by);
  const session = facts.session(event.counter, event.session);
  const before = starting || session?.chargedTo !== event.by ? 0 : session.charged.dose;
  const sum = getOrMake(shifts, event.shift, newSum);
  sum.entries += event.dose - before;
  sum.total = event.total;
  return starting ? undefined : wrongText(event.by, event.shift, sum);
}

function wrongText(worker: string, shift: number, { entries, total }: Sum): string | undefined {
  if (total === Math.min(entries, MAX_DOSE)) return undefined;
  return `shift ${shift} of ${worker} has ${total} u, its entries add up to ${entries} u`;
}

function newShifts(): Shifts {
  return new Map();
}

function newSum(): Sum {
  return { entries: 0, total: 0 };
}
