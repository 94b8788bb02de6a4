// Reads a length of time from the words of a person: 2h30m, 150min, 1.5h, 45s.
import type { Misread, Words } from './words.js';

export const DAY_MS = 86_400_000;

interface Unit {
  readonly names: readonly string[];
  readonly ms: number;
}

/** Falling: each may come once, after the larger ones. */
const UNITS: readonly Unit[] = [
  { names: ['h'], ms: 3_600_000 },
  { names: ['min', 'm'], ms: 60_000 },
  { names: ['s'], ms: 1_000 },
];

const NUMBER = /(\d+)(?:\.(\d+))?/y;
const UNIT = /(?:h|min|m|s)(?![a-z./])/y;
/** So many decimals are whole ms in every unit. */
const MAX_DECIMALS = 3;

/** Takes a time that reaches to the end of the text; whole ms, 0..86 400 000. */
export function takeTime(words: Words): number | Misread {
  const start = words.at;
  let ms = 0;
  let units = UNITS;
  do {
    const numberAt = words.at;
    const number = words.take(NUMBER);
    if (number === null) return words.misread('a time, as in 2h30m, 150min or 45s');
    const [, whole = '', decimals = ''] = number;
    if (decimals.length > MAX_DECIMALS) return words.misread('at most three decimals', numberAt);
    const unitAt = words.at;
    const name = words.take(UNIT)?.[0];
    const index = units.findIndex(({ names }) => name !== undefined && names.includes(name));
    const unit = units[index];
    if (unit === undefined) return words.misread(unitExpected(words.text.charAt(unitAt), name, units), unitAt);
    ms += (Number(whole + decimals.padEnd(MAX_DECIMALS, '0')) * unit.ms) / 10 ** MAX_DECIMALS;
    units = units.slice(index + 1);
  } while (!words.ended);
  return ms <= DAY_MS ? ms : words.misread('a time of at most 24 h', start);
}

function unitExpected(found: string, name: string | undefined, units: readonly Unit[]): string {
  if (found === ':') {
    return 'h, min or s: a colon could part hours or minutes, so write 2h30m or 2m30s';
  }
  if (name !== undefined || units.length === 0) {
    return 'each unit once, in the order h, min, s, as in 1h20m30s';
  }
  return `a unit of time: ${units.map(({ names }) => names.join(' or ')).join(', ')}`;
}
