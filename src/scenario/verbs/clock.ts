// clock: the oscillator of a device runs fast or slow, and perhaps more so with every hour. What a step does not name is 0.

import { amount } from '../fields/amount.js';
import { duration, formatDuration } from '../fields/duration.js';
import { nameOf } from '../fields/text.js';
import { flowText } from '../yaml/flow.js';
import { fault } from './fault.js';

/** CLK-1: 2 % */
const MAX_PPM = 20_000;
const MAX_DRIFT_PPM = 1000;

export const clock = fault(
  'clock',
  {
    clock: nameOf('tool or worker'),
    off: amount('ppm', -MAX_PPM, MAX_PPM, 'how much the clock runs fast, or with a minus slow').optional(),
    drift: amount('ppm/h', -MAX_DRIFT_PPM, MAX_DRIFT_PPM, 'what is added in each hour').optional(),
    for: duration().optional(),
  },
  {
    event: ({ clock: device, off, drift, for: length }, { problems }) => {
      if (off === undefined && drift === undefined) {
        const expected = 'off: 400ppm or drift: 20ppm/h or both; off: 0ppm makes it right again';
        problems.at(device.node, 'missing', 'this does not say what the clock does', expected);
      }
      const [ppm, driftPpm] = [off?.value ?? 0, drift?.value ?? 0];
      return { do: 'clock', device: device.value, ppm, driftPpm, forMs: length?.value ?? null };
    },
    write: ({ device, ppm, driftPpm, forMs }) => [
      ['clock', flowText(device)],
      ['off', `${ppm}ppm`],
      ...(driftPpm === 0 ? [] : ([['drift', `${driftPpm}ppm/h`]] as const)),
      ...(forMs === null ? [] : ([['for', formatDuration(forMs)]] as const)),
    ],
  },
);
