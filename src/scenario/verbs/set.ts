// set: the magnitude is keyed into a tool's counter, with all the gestures that it takes.
import { formatTenths, magnitude } from '../fields/number.js';
import { nameOf } from '../fields/text.js';
import { flowText } from '../yaml/flow.js';
import { verb } from './verb.js';

export const set = verb(
  'set',
  { set: nameOf('tool'), to: magnitude },
  {
    events: (step, atMs) => [{ do: 'set', atMs, tool: step.set.value, toTenths: step.to.value }],
    write: ({ tool, toTenths }) => [
      ['set', flowText(tool)],
      ['to', formatTenths(toTenths)],
    ],
  },
);
