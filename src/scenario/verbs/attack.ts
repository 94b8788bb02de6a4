// attack: somebody in the air who hears all that a counter and a wearable say to each other, and sends frames to both, or
// stands in the middle of every pairing of the two that begins in that time.
import { ATTACKS } from '../day.js';
import { choice } from '../fields/choice.js';
import { duration, formatDuration } from '../fields/duration.js';
import { flowList, flowText } from '../yaml/flow.js';
import { fault } from './fault.js';
import { link } from './link.js';

/** Faster than this no attacker sends: each frame takes the air for some ms. */
const LEAST_EVERY_MS = 10;
const FRAME_EVERY = 'frame every';

export const attack = fault(
  'attack',
  { attack: link, how: choice(ATTACKS), [FRAME_EVERY]: duration(LEAST_EVERY_MS).optional(), for: duration() },
  {
    event: ({ attack: ends, how, [FRAME_EVERY]: pause, for: length }, { problems }) => {
      if (how.value === 'middle' && pause !== undefined) {
        const expected = 'it answers the frames of a pairing: leave this out';
        problems.at(pause.node, 'unexpected', 'who stands in the middle has no pace', expected);
      }
      if (how.value !== 'middle' && pause === undefined) {
        const expected = `${FRAME_EVERY}: 2s, from one frame of the attacker to the next`;
        problems.at(how.node, 'missing', `${how.value} needs "${FRAME_EVERY}"`, expected);
      }
      const [tool, worker] = ends.value;
      return { do: 'attack', how: how.value, tool, worker, everyMs: pause?.value ?? 0, forMs: length.value };
    },
    write: ({ how, tool, worker, everyMs, forMs }) => [
      ['attack', flowList([flowText(tool), flowText(worker)])],
      ['how', how],
      ...(how === 'middle' ? [] : ([[FRAME_EVERY, formatDuration(everyMs)]] as const)),
      ['for', formatDuration(forMs)],
    ],
  },
);
