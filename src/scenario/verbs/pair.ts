// pair: counter and wearable are paired, with all the gestures that it takes on both.
import { nameOf } from '../fields/text.js';
import { flowText } from '../yaml/flow.js';
import { verb } from './verb.js';

export const pair = verb(
  'pair',
  { pair: nameOf('tool'), with: nameOf('worker') },
  {
    events: (step, atMs) => [{ do: 'pair', atMs, tool: step.pair.value, with: step.with.value }],
    write: (event) => [
      ['pair', flowText(event.tool)],
      ['with', flowText(event.with)],
    ],
  },
);
