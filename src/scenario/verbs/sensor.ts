// sensor: the accelerometer of a tool's counter fails for a while.
import { SENSOR_FAULTS } from '../day.js';
import { choice } from '../fields/choice.js';
import { duration, formatDuration } from '../fields/duration.js';
import { nameOf } from '../fields/text.js';
import { flowText } from '../yaml/flow.js';
import { fault } from './fault.js';

export const sensor = fault(
  'sensor',
  { sensor: nameOf('tool'), fault: choice(SENSOR_FAULTS), for: duration() },
  {
    event: ({ sensor: tool, fault: how, for: length }) => {
      return { do: 'sensor', tool: tool.value, fault: how.value, forMs: length.value };
    },
    write: ({ tool, fault: how, forMs }) => [
      ['sensor', flowText(tool)],
      ['fault', how],
      ['for', formatDuration(forMs)],
    ],
  },
);
