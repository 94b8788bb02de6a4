// turn: the ring of a tool's counter is turned, one detent after the other.
import { duration, formatDuration } from '../fields/duration.js';
import { integer } from '../fields/number.js';
import { nameOf } from '../fields/text.js';
import { flowText } from '../yaml/flow.js';
import { verb } from './verb.js';

/** From one end of the magnitudes to the other takes 495. */
const MAX_DETENTS = 500;

export const turn = verb(
  'turn',
  {
    turn: nameOf('tool'),
    detents: integer(-MAX_DETENTS, MAX_DETENTS, 'detents, clockwise, or counter-clockwise with a minus'),
    every: duration(),
  },
  {
    events: (step, atMs, { problems }) => {
      const { value, node } = step.detents;
      if (value === 0) problems.at(node, 'value', 'no detent is no turn', 'at least one detent');
      return [{ do: 'turn', atMs, tool: step.turn.value, detents: value, everyMs: step.every.value }];
    },
    write: ({ tool, detents, everyMs }) => [
      ['turn', flowText(tool)],
      ['detents', `${detents}`],
      ['every', formatDuration(everyMs)],
    ],
  },
);
