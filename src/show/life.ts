// Why nothing of a device is live: it has no power, or sleeps on a poor cell (CEL-1).
import { isLive } from '../trace/moment-display.js';
import type { ToolMoment } from '../trace/moment-tool.js';
import type { WorkerMoment } from '../trace/moment-worker.js';

/** "no power" or "asleep"; '' where the device is awake, or has shown nothing yet. */
export function lifelessWord({ display }: ToolMoment | WorkerMoment): string {
  if (isLive(display)) return '';
  return display?.screen === 'dark' ? 'no power' : 'asleep';
}
