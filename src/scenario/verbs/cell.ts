// cell: from now on so much is left in the cell of a device.
import { amount } from '../fields/amount.js';
import { nameOf } from '../fields/text.js';
import { flowText } from '../yaml/flow.js';
import { fault } from './fault.js';

export const cell = fault(
  'cell',
  { cell: nameOf('tool or worker'), left: amount('%', 0, 100, 'what is left in the cell') },
  {
    event: ({ cell: device, left }) => ({ do: 'cell', device: device.value, toPercent: left.value }),
    write: ({ device, toPercent }) => [
      ['cell', flowText(device)],
      ['left', `${toPercent}%`],
    ],
  },
);
