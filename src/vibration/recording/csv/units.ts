// Units as they stand in the header of a recording.
import { STANDARD_GRAVITY } from '../limits.js';

const ACCELERATIONS: Readonly<Record<string, number>> = {
  'm/s2': 1,
  'm/s/s': 1,
  'm/ss': 1,
  'm/sec2': 1,
  'ms-2': 1,
  mps2: 1,
  g: STANDARD_GRAVITY,
  gn: STANDARD_GRAVITY,
};

const TIMES: Readonly<Record<string, number>> = {
  s: 1,
  sec: 1,
  second: 1,
  seconds: 1,
  ms: 0.001,
  msec: 0.001,
  millisecond: 0.001,
  milliseconds: 0.001,
};

/** m/s² in one; null where it is no unit of acceleration that is known. */
export function accelerationUnit(text: string): number | null {
  return own(ACCELERATIONS, plain(text));
}

/** Seconds in one; null where it is no unit of time that is known. */
export function timeUnit(text: string): number | null {
  return own(TIMES, plain(text));
}

export function isUnit(text: string): boolean {
  return accelerationUnit(text) !== null || timeUnit(text) !== null;
}

/** However it was typed. U+FFFD is what is left of a ² that was not written in UTF-8. */
function plain(text: string): string {
  return text
    .toLowerCase()
    .replace(/[²\ufffd]/g, '2')
    .replace(/[⁻−–]/g, '-')
    .replace(/[()[\]{}\s^*·.]/g, '');
}

function own(units: Readonly<Record<string, number>>, name: string): number | null {
  return Object.hasOwn(units, name) ? units[name]! : null;
}
