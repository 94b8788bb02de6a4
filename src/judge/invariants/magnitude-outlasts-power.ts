// Guards MAG-3, MAG-4 and KEP-1: a counter that starts again has the magnitude that was committed last. Only one that was committed
// while its journal could not be written (KEP-5) may be undone, and only one that was being committed when power failed within a
// write, as the review had shown it, may be in force without its having been told.
import type { EventOf } from '../../trace/kinds.js';
import type { Facts } from './facts.js';
import type { Invariant } from './invariant.js';

export const magnitudeOutlastsPower: Invariant = {
  name: 'a committed magnitude outlasts a power failure',
  guards: ['MAG-3', 'MAG-4', 'KEP-1'],
  watch: (facts) => {
    /** By tool: the magnitude of the review that was shown last. */
    const reviewed = new Map<string, number>();
    return {
      on: {
        'shown.display': (event) => {
          if (event.screen === 'review') reviewed.set(event.by, event.value);
          return undefined;
        },
        'inner.magnitude': (event) => (facts.device(event.by).starting ? wrong(facts, reviewed, event) : undefined),
      },
    };
  },
};

function wrong(
  facts: Facts,
  reviewed: ReadonlyMap<string, number>,
  { by, tenths }: EventOf<'inner.magnitude'>,
): string | undefined {
  const counter = facts.counter(by);
  const { undoneSinceMs, untold } = facts.device(by);
  if (tenths === counter.tenths) return undefined;
  if (counter.changedMs >= undoneSinceMs && tenths === counter.previousTenths) return undefined;
  if (untold && tenths === reviewed.get(by)) return undefined;
  return `${by} starts again with a magnitude of ${tenths} tenths of m/s², and had ${counter.tenths}`;
}
