// leave: workers and tools go out of reach of all others; those who leave together stay in reach of one another.
import { duration, formatDuration } from '../fields/duration.js';
import { namesOf } from '../fields/text.js';
import { writeNames } from './names.js';
import { verb } from './verb.js';

export const leave = verb(
  'leave',
  { leave: namesOf('tool or worker', "a tool's or a worker's name, or a list of them"), for: duration().optional() },
  {
    events: (step, atMs) => [{ do: 'leave', atMs, who: step.leave.value, forMs: step.for?.value ?? null }],
    write: ({ who, forMs }) => [
      ['leave', writeNames(who)],
      ...(forMs === null ? [] : ([['for', formatDuration(forMs)]] as const)),
    ],
  },
);
