// work: bursts in one line. A short form: it becomes one run a burst.
import { duration } from '../fields/duration.js';
import { integer } from '../fields/number.js';
import { nameOf } from '../fields/text.js';
import { reportOutside } from '../scope.js';
import { verb } from './verb.js';

const MAX_BURSTS = 10_000;

export const work = verb(
  'work',
  {
    work: nameOf('tool'),
    by: nameOf('worker'),
    bursts: integer(1, MAX_BURSTS, 'how many bursts'),
    of: duration(),
    every: duration(),
  },
  {
    events: (step, atMs, { problems, frame }) => {
      const [forMs, everyMs] = [step.of.value, step.every.value];
      if (everyMs < forMs) {
        const expected = 'from the beginning of one burst to the beginning of the next: at least the burst itself';
        problems.at(step.every.node, 'value', '"every" is shorter than "of"', expected);
      }
      const lastMs = atMs + (step.bursts.value - 1) * everyMs;
      if (lastMs >= frame.untilMs) reportOutside(problems, step.bursts.node, frame, 'the last burst');
      const [tool, by] = [step.work.value, step.by.value];
      return Array.from({ length: step.bursts.value }, (_, burst) => {
        return { do: 'run', atMs: atMs + burst * everyMs, tool, by, forMs, held: true } as const;
      });
    },
    write: null,
  },
);
