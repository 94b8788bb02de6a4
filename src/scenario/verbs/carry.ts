// carry: a tool lies in a van that drives; it is shaken, and does not run.
import { duration, formatDuration } from '../fields/duration.js';
import { nameOf } from '../fields/text.js';
import { flowText } from '../yaml/flow.js';
import { verb } from './verb.js';

export const carry = verb(
  'carry',
  { carry: nameOf('tool'), for: duration() },
  {
    events: (step, atMs) => [{ do: 'carry', atMs, tool: step.carry.value, forMs: step.for.value }],
    write: ({ tool, forMs }) => [
      ['carry', flowText(tool)],
      ['for', formatDuration(forMs)],
    ],
  },
);
