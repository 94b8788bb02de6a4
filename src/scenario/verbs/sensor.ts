// sensor: the accelerometer of a tool's counter fails for a while.
import { SENSOR_FAULTS } from '../day.js';
import { choice } from '../fields/choice.js';
import { duration, formatDuration } from '../fields/duration.js';
import { nameOf } from '../fields/text.js';
import { flowText } from '../yaml/flow.js';
import { verb } from './verb.js';

export const sensor = verb(
  'sensor',
  { sensor: nameOf('tool'), fault: choice(SENSOR_FAULTS), for: duration() },
  {
    events: (step, atMs) => [
      { do: 'sensor', atMs, tool: step.sensor.value, fault: step.fault.value, forMs: step.for.value },
    ],
    write: ({ tool, fault, forMs }) => [
      ['sensor', flowText(tool)],
      ['fault', fault],
      ['for', formatDuration(forMs)],
    ],
  },
);
