// readout: a wearable is laid into its reader.
import { nameOf } from '../fields/text.js';
import { flowText } from '../yaml/flow.js';
import { verb } from './verb.js';

export const readout = verb(
  'readout',
  { readout: nameOf('worker') },
  {
    events: (step, atMs) => [{ do: 'readout', atMs, worker: step.readout.value }],
    write: ({ worker }) => [['readout', flowText(worker)]],
  },
);
