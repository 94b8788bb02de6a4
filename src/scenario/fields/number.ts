// Numbers, read digit by digit from the text of the file: nothing is rounded, and no other notation is taken for one.
import type { Decimal } from '../expectation.js';
import { printable } from '../printable.js';
import { type Field, refusal, scalarField } from './field.js';

/** Digits before and behind the point together fit a safe integer. */
const DECIMAL = /^(0|[1-9]\d{0,14})(?:\.(\d{1,6}))?$/;
/** Digits of a number that a sentence repeats. */
const MAX_SHOWN = 40;
const NOTATION = 'plain digits, with a point where a fraction follows';

/** The number exactly as written, or null where the text is none of ours or has too many digits. */
export function parseDecimal(text: string): Decimal | null {
  const parts = DECIMAL.exec(text);
  if (parts === null) return null;
  const [, whole = '', fraction = ''] = parts;
  const digits = Number(`${whole}${fraction}`);
  return Number.isSafeInteger(digits) ? { digits, places: fraction.length } : null;
}

/** A whole number from least to most. */
export function integer(least: number, most: number, what: string): Field<number> {
  const description = `${what}, a whole number from ${least} to ${most}`;
  return scalarField({ type: 'integer', description, minimum: least, maximum: most }, 'number', (text) => {
    const value = /^-?(?:0|[1-9]\d{0,14})$/.test(text) ? Number(text) : Number.NaN;
    return value >= least && value <= most && !Object.is(value, -0)
      ? value
      : refusal(`${printable(text, MAX_SHOWN)} is not possible here`, description);
  });
}

/** A magnitude of 0.5 to 50.0 m/s² in steps of 0.1 (MAG-1), as tenths. */
export const magnitude: Field<number> = scalarField(
  {
    type: 'number',
    description: 'a magnitude from 0.5 to 50.0 m/s² with at most one decimal',
    minimum: 0.5,
    maximum: 50,
    multipleOf: 0.1,
  },
  'number',
  (text) => {
    const expected = 'a magnitude from 0.5 to 50.0 m/s² with at most one decimal; it is never rounded';
    const decimal = parseDecimal(text);
    if (decimal === null) return refusal(`${printable(text, MAX_SHOWN)} is no magnitude`, `${expected}: ${NOTATION}`);
    const tenths = decimal.places === 0 ? decimal.digits * 10 : decimal.digits;
    const possible = decimal.places <= 1 && tenths >= 5 && tenths <= 500;
    return possible
      ? tenths
      : refusal(`${printable(text, MAX_SHOWN)} is no magnitude that a counter can be set to`, expected);
  },
);

/** 120 is "12.0". */
export function formatTenths(tenths: number): string {
  return `${Math.floor(tenths / 10)}.${tenths % 10}`;
}
