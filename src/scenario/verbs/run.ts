// run: a tool runs in a worker's hands, or lies running on the ground.
import { yesOrNo } from '../fields/choice.js';
import { duration, formatDuration } from '../fields/duration.js';
import { nameOf } from '../fields/text.js';
import { flowText } from '../yaml/flow.js';
import { verb } from './verb.js';

export const run = verb(
  'run',
  {
    run: nameOf('tool'),
    by: nameOf('worker'),
    for: duration(),
    held: yesOrNo.optional(),
  },
  {
    events: (step, atMs) => [
      {
        do: 'run',
        atMs,
        tool: step.run.value,
        by: step.by.value,
        forMs: step.for.value,
        held: step.held?.value !== 'no',
      },
    ],
    write: ({ tool, by, forMs, held }) => [
      ['run', flowText(tool)],
      ['by', flowText(by)],
      ['for', formatDuration(forMs)],
      ...(held ? [] : ([['held', 'no']] as const)),
    ],
  },
);
