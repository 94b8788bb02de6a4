// Times of day as a scenario writes them: 07:10, 07:10:30, 07:10:30.250; "day 2 06:00" names the day, the first being
// day 1. A time without a day is the first such time at or after the start of the day.
import { quoted } from '../yaml/node.js';
import { type Field, type Refusal, refusal, scalarField } from './field.js';

export const DAY_MS = 86_400_000;
/** A scenario spans at most seven days. */
export const MAX_SPAN_MS = 7 * DAY_MS;

export interface ClockTime {
  /** 1 for the day on which the scenario starts; null where none was written. */
  readonly day: number | null;
  /** Since midnight, 0..86 399 999. */
  readonly ms: number;
}

const CLOCK = /^(?:day ([1-8]) )?([01]\d|2[0-3]):([0-5]\d)(?::([0-5]\d)(?:\.(\d{3}))?)?$/;
const LOOKS_LIKE = /^\d{1,2}:\d{2}|^day \d/;

/** The time, or null where the text is none. */
export function parseClock(text: string): ClockTime | null {
  const parts = CLOCK.exec(text);
  if (parts === null) return null;
  const [, day, hours, minutes, seconds = '0', ms = '0'] = parts;
  const whole = (Number(hours) * 60 + Number(minutes)) * 60 + Number(seconds);
  return { day: day === undefined ? null : Number(day), ms: whole * 1000 + Number(ms) };
}

/** "7:00", "07.00", "7h00", "7:00 pm", "24:00", "day2 08:00": other ways to write a time. */
const ALIKE = /^(?:day ?(\d),? )?(\d{1,2})[:.h]([0-5]\d)(?::([0-5]\d)(?:[.,](\d{1,3}))?)? {0,2}([ap])?(?:\.?m\.?)?$/i;

/** Why a text is no time, and what may have been meant; `expected` completes "expected …". */
export function noClock(text: string, expected: string = CLOCK_META.description): Refusal {
  const meant = meantClock(text);
  return refusal(`${quoted(text)} is no time`, meant === null ? expected : `${expected}; perhaps ${meant}`);
}

function meantClock(text: string): string | null {
  const parts = ALIKE.exec(text);
  if (parts === null) return null;
  const [, day, hour, minutes, seconds, ms = '', half] = parts;
  const hours = (half === undefined ? Number(hour) : (Number(hour) % 12) + (/p/i.test(half) ? 12 : 0)) % 24;
  // Midnight at the end of a day is the one at which the next begins.
  const days = day === undefined ? null : Number(day) + (hour === '24' ? 1 : 0);
  const padded = `${hours}`.padStart(2, '0');
  const fine = seconds === undefined ? '' : `:${seconds}${ms === '' ? '' : `.${ms.padEnd(3, '0')}`}`;
  const meant = `${days === null ? '' : `day ${days} `}${padded}:${minutes}${fine}`;
  return Number(hour) <= 24 && parseClock(meant) !== null ? meant : null;
}

/** Whether somebody may have meant a time. */
export function looksLikeClock(text: string): boolean {
  return LOOKS_LIKE.test(text);
}

/** ms since the start of a day that starts at fromMs after midnight; negative where it lies before. */
export function sinceStart({ day, ms }: ClockTime, fromMs: number): number {
  if (day !== null) return (day - 1) * DAY_MS + ms - fromMs;
  return (ms - fromMs + DAY_MS) % DAY_MS;
}

/** The other way round: the shortest text that means atMs since the start. */
export function formatClock(atMs: number, fromMs: number): string {
  const absolute = fromMs + atMs;
  const time = formatTime(absolute % DAY_MS);
  return atMs < DAY_MS ? time : `day ${Math.floor(absolute / DAY_MS) + 1} ${time}`;
}

function formatTime(ms: number): string {
  const two = (value: number): string => `${value}`.padStart(2, '0');
  const seconds = Math.floor(ms / 1000);
  const short = `${two(Math.floor(seconds / 3600))}:${two(Math.floor(seconds / 60) % 60)}`;
  if (ms % 1000 !== 0) return `${short}:${two(seconds % 60)}.${`${ms % 1000}`.padStart(3, '0')}`;
  return seconds % 60 === 0 ? short : `${short}:${two(seconds % 60)}`;
}

export const CLOCK_META = {
  type: 'string',
  description: 'a time of day as HH:MM, HH:MM:SS or HH:MM:SS.mmm, with "day 2 " and so on before it on a later day',
  pattern: CLOCK.source,
} as const;

export const clock: Field<ClockTime> = scalarField(CLOCK_META, 'text', (text) => parseClock(text) ?? noClock(text));

/** A time of day, or the end of the day. */
export const clockOrEnd: Field<ClockTime | 'end'> = scalarField(
  { type: 'string', description: `${CLOCK_META.description}, or "end"`, pattern: `${CLOCK.source}|^end$` },
  'text',
  (text) => (text === 'end' ? text : (parseClock(text) ?? noClock(text))),
);
