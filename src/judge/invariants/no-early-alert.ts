// Guards ACC-3 and WEA-2: no alert before its level, to the last u, and none at a level that the wearer does not have.
import type { Invariant } from './invariant.js';

export const noEarlyAlert: Invariant = {
  name: 'no alert comes before its level',
  guards: ['ACC-3', 'WEA-2'],
  watch: (facts) => ({
    on: {
      'shown.alert': (event) => {
        const worker = facts.worker(event.by);
        const level = worker.levels.find((one) => one.level === event.level);
        if (level === undefined) return `${event.by} is alerted of ${event.level}, which is none of the levels`;
        if (worker.total >= level.leastDose) return undefined;
        return `${event.by} is alerted of ${event.level} at ${worker.total} u, ${level.leastDose - worker.total} u too early`;
      },
    },
  }),
};
