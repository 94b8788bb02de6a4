// readout: a wearable or a counter is laid into its reader (WEA-4, PAI-7).
import { nameOf } from '../fields/text.js';
import { flowText } from '../yaml/flow.js';
import { verb } from './verb.js';

export const readout = verb(
  'readout',
  { readout: nameOf('tool or worker') },
  {
    events: (step, atMs) => [{ do: 'readout', atMs, device: step.readout.value }],
    write: ({ device }) => [['readout', flowText(device)]],
  },
);
