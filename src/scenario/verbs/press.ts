// press: the ring of a tool's counter is pressed and held for a while.
import { duration, formatDuration } from '../fields/duration.js';
import { nameOf } from '../fields/text.js';
import { flowText } from '../yaml/flow.js';
import { verb } from './verb.js';

export const press = verb(
  'press',
  { press: nameOf('tool'), for: duration() },
  {
    events: (step, atMs) => [{ do: 'press', atMs, tool: step.press.value, forMs: step.for.value }],
    write: ({ tool, forMs }) => [
      ['press', flowText(tool)],
      ['for', formatDuration(forMs)],
    ],
  },
);
