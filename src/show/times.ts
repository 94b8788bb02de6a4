// Times of day as they are shown: whole seconds or minutes, the day named only past midnight.
import { clockText } from '../trace/clock.js';

const SECOND_MS = 1000;

/** "07:39:58", with "day 2 " in front past midnight; fractions of a second are dropped. */
export function timeText(fromMs: number, atMs: number): string {
  return clockText(fromMs, atMs - ((fromMs + atMs) % SECOND_MS));
}

/** "07:39", without the day. */
export function hourMinuteText(fromMs: number, atMs: number): string {
  return timeText(fromMs, atMs).slice(-8, -3);
}

/** "07:39:58", without the day. */
export function secondsText(fromMs: number, atMs: number): string {
  return timeText(fromMs, atMs).slice(-8);
}
