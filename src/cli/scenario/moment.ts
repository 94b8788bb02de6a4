// A time of day as an option of a command names it.
import { parseClock, sinceStart } from '../../scenario/fields/clock.js';
import { clockText } from '../../trace/clock.js';

/** "lies outside the day, which goes from 06:45:00 to 15:30:00" */
export function outsideText({ fromMs, untilMs }: { readonly fromMs: number; readonly untilMs: number }): string {
  return `lies outside the day, which goes from ${clockText(fromMs, 0)} to ${clockText(fromMs, untilMs)}`;
}

/** ms since the start of a day that starts dayFromMs after midnight, or what is wrong with the text. */
export function momentMs(text: string | undefined, dayFromMs: number, otherwise: number): number | string {
  if (text === undefined) return otherwise;
  const clock = parseClock(text);
  return clock === null
    ? `"${text}" is no time of day: write 09:00, 09:00:30 or day 2 06:00`
    : sinceStart(clock, dayFromMs);
}
