// Reads one operation of a day from the words of a person: "4 m/s2 2h30m". Decimals are read from the text, and what
// would need rounding or guessing is refused with a sentence that says what to write.
import { MAX_MAGNITUDE_TENTHS } from '../../exposure/dose.js';
import { tenthsRoundedUp } from '../../exposure/tenths.js';
import { takeTime } from './time.js';
import { type Misread, Words } from './words.js';

/** Longest text that is read, in characters. */
export const MAX_LENGTH = 80;

export interface PlannedOperation {
  /** Tenths of m/s², 1..500. */
  readonly magnitudeTenths: number;
  /** Whole ms, 0..86 400 000. */
  readonly triggerMs: number;
  /** Where in the text the time begins, counted from 0. */
  readonly timeAt: number;
}

const NUMBER = /(\d+)(?:\.(\d+))?/y;
const UNIT = /m\/s(?:²|2(?!\d))/y;

/** Reads an operation: a magnitude in steps of 0.1, its unit m/s2 or m/s², and a time. */
export function readOperation(text: string): PlannedOperation | Misread {
  const words = new Words(text);
  if (text.length > MAX_LENGTH) {
    return words.misread(`an operation of at most ${MAX_LENGTH} characters`, MAX_LENGTH);
  }
  words.skipSpace();
  const magnitudeAt = words.at;
  const number = words.take(NUMBER);
  if (number === null) return words.misread('a magnitude, as in "4.2 m/s2 2h30m"');
  const magnitudeTenths = readTenths(number);
  if (typeof magnitudeTenths === 'string') return words.misread(magnitudeTenths, magnitudeAt);
  if (words.take(UNIT) === null) return words.misread(unitExpected(text.charAt(words.at), number[0]));
  const timeAt = words.at;
  const triggerMs = takeTime(words);
  return typeof triggerMs === 'number' ? { magnitudeTenths, triggerMs, timeAt } : triggerMs;
}

/** The magnitude as tenths, or what was expected instead. */
function readTenths([written, whole = '', decimals = '']: RegExpExecArray): number | string {
  const value = Number(written);
  if (value * 10 < 1 || value * 10 > MAX_MAGNITUDE_TENTHS) {
    return 'a magnitude from 0.1 to 50 m/s²';
  }
  const [tenth = '0', ...finer] = decimals;
  if (finer.some((digit) => digit !== '0')) {
    return `a magnitude in steps of 0.1 m/s², as a counter is set: rounded up, ${tenthsRoundedUp(value) / 10}`;
  }
  return Number(whole + tenth);
}

function unitExpected(found: string, magnitude: string): string {
  return found === ','
    ? 'a decimal point instead of the comma, as in 4.2'
    : `the unit m/s2 or m/s², then a time, all in one pair of quotes: "${magnitude} m/s2 2h30m"`;
}
