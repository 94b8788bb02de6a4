// How long the vibration of a day is made sample by sample, which takes its time.
import type { DayEvent, ToolSpec } from './day.js';

/** At most so many ms: runs of tools that have `samples`, and tools that are carried, none beyond the end of the day. */
export function sampledMs(tools: readonly ToolSpec[], events: readonly DayEvent[], untilMs: number): number {
  const sampled = new Set(tools.filter(({ samples }) => samples !== undefined).map(({ name }) => name));
  return events.reduce((sumMs, event) => {
    const counts = event.do === 'carry' || (event.do === 'run' && sampled.has(event.tool));
    return counts ? sumMs + Math.min(event.forMs, Math.max(0, untilMs - event.atMs)) : sumMs;
  }, 0);
}
