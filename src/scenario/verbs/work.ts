// work: bursts in one line. A short form: it becomes one run a burst.
import { duration } from '../fields/duration.js';
import { integer } from '../fields/number.js';
import { nameOf } from '../fields/text.js';
import { MAX_TIMES, reportOverlap, timesOf } from './series.js';
import { verb } from './verb.js';

export const work = verb(
  'work',
  {
    work: nameOf('tool'),
    by: nameOf('worker'),
    bursts: integer(1, MAX_TIMES, 'how many bursts'),
    of: duration(),
    every: duration(),
  },
  {
    events: ({ work: { value: tool }, by, bursts, of: { value: forMs }, every }, atMs, around) => {
      reportOverlap(every, forMs, 'of', around);
      const starts = timesOf({ atMs, every, times: bursts.value }, 'the last burst', bursts, around);
      return starts.map((startMs) => ({ do: 'run', atMs: startMs, tool, by: by.value, forMs, held: true }) as const);
    },
    write: null,
  },
);
