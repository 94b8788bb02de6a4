// tap: the surface of a worker's wearable is tapped and held for a while.
import { duration, formatDuration } from '../fields/duration.js';
import { nameOf } from '../fields/text.js';
import { flowText } from '../yaml/flow.js';
import { verb } from './verb.js';

export const tap = verb(
  'tap',
  { tap: nameOf('worker'), for: duration() },
  {
    events: (step, atMs) => [{ do: 'tap', atMs, worker: step.tap.value, forMs: step.for.value }],
    write: ({ worker, forMs }) => [
      ['tap', flowText(worker)],
      ['for', formatDuration(forMs)],
    ],
  },
);
