// exchange: the cell of a device is taken out, and a full one put in a while later.
import { duration, formatDuration } from '../fields/duration.js';
import { nameOf } from '../fields/text.js';
import { flowText } from '../yaml/flow.js';
import { fault } from './fault.js';

export const exchange = fault(
  'exchange',
  { exchange: nameOf('tool or worker'), for: duration() },
  {
    event: ({ exchange: device, for: length }) => ({ do: 'exchange', device: device.value, forMs: length.value }),
    write: ({ device, forMs }) => [
      ['exchange', flowText(device)],
      ['for', formatDuration(forMs)],
    ],
  },
);
