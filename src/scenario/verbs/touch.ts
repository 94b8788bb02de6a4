// touch: counter and wearable are held together, and nothing more is done.
import { nameOf } from '../fields/text.js';
import { flowText } from '../yaml/flow.js';
import { verb } from './verb.js';

export const touch = verb(
  'touch',
  { touch: nameOf('tool'), with: nameOf('worker') },
  {
    events: (step, atMs) => [{ do: 'touch', atMs, tool: step.touch.value, with: step.with.value }],
    write: (event) => [
      ['touch', flowText(event.tool)],
      ['with', flowText(event.with)],
    ],
  },
);
