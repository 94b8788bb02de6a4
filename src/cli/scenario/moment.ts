// A time of day as an option of a command names it.
import { parseClock, sinceStart } from '../../scenario/fields/clock.js';

/** ms since the start of a day that starts dayFromMs after midnight, or what is wrong with the text. */
export function momentMs(text: string | undefined, dayFromMs: number, otherwise: number): number | string {
  if (text === undefined) return otherwise;
  const clock = parseClock(text);
  return clock === null
    ? `"${text}" is no time of day: write 09:00, 09:00:30 or day 2 06:00`
    : sinceStart(clock, dayFromMs);
}
