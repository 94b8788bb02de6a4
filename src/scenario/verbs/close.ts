// close: a worker closes the shift on the wearable.
import { nameOf } from '../fields/text.js';
import { flowText } from '../yaml/flow.js';
import { verb } from './verb.js';

export const close = verb(
  'close',
  { close: nameOf('worker') },
  {
    events: (step, atMs) => [{ do: 'close', atMs, worker: step.close.value }],
    write: ({ worker }) => [['close', flowText(worker)]],
  },
);
