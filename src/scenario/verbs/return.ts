// return: workers and tools that left come back into reach.
import { namesOf } from '../fields/text.js';
import { writeNames } from './names.js';
import { verb } from './verb.js';

export const comeBack = verb(
  'return',
  { return: namesOf('tool or worker', "a tool's or a worker's name, or a list of them") },
  {
    events: (step, atMs) => [{ do: 'return', atMs, who: step.return.value }],
    write: ({ who }) => [['return', writeNames(who)]],
  },
);
