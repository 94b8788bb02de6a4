// cut: the power of a device fails for a while, at once or within the next write to its flash or the next erase of it.

import { amount } from '../fields/amount.js';
import { choice } from '../fields/choice.js';
import { duration, formatDuration } from '../fields/duration.js';
import { nameOf } from '../fields/text.js';
import { flowText } from '../yaml/flow.js';
import { fault } from './fault.js';

/** As many as the flash of a device has; a test holds the two together. */
export const MAX_BYTES = 65_536;

export const cut = fault(
  'cut',
  {
    cut: nameOf('tool or worker'),
    during: choice(['write', 'erase']).optional(),
    after: amount('bytes', 0, MAX_BYTES, 'what is still written').optional(),
    for: duration(),
  },
  {
    event: ({ cut: device, during, after, for: length }, { problems }) => {
      if (after !== undefined && during?.value !== 'write') {
        const expected = 'power fails within a write after so many bytes; at other moments, leave it out';
        problems.at(after.node, 'unexpected', '"after" goes with "during: write"', expected);
      }
      const when = during?.value ?? 'now';
      return { do: 'cut', device: device.value, when, afterBytes: after?.value ?? 0, forMs: length.value };
    },
    write: ({ device, when, afterBytes, forMs }) => [
      ['cut', flowText(device)],
      ...(when === 'now' ? [] : ([['during', when]] as const)),
      ...(afterBytes === 0 ? [] : ([['after', `${afterBytes} bytes`]] as const)),
      ['for', formatDuration(forMs)],
    ],
  },
);
