// Whole numbers with a unit behind them: 8%, 5 bytes, 400ppm, -20ppm/h.
import { quoted } from '../yaml/node.js';
import { type Field, refusal, scalarField } from './field.js';

/** Each unit as it is written behind a number. */
const BEHIND = { '%': '%', bytes: ' bytes', ppm: 'ppm', 'ppm/h': 'ppm/h' } as const;

/** A whole number without a unit, or with one after spaces or in capitals. */
const ALIKE = /^([+-]?\d{1,9}) {0,2}([a-z/%]{0,8})$/i;

/** A whole number from least to most in the unit, with a sign where least is below 0. `what` completes "expected …". */
export function amount(unit: keyof typeof BEHIND, least: number, most: number, what: string): Field<number> {
  const behind = unit === 'bytes' ? ' bytes?' : BEHIND[unit];
  const pattern = `^(${least < 0 ? '[+-]?' : ''}(?:0|[1-9]\\d{0,8}))${behind}$`;
  const range = `${what}, from ${least}${BEHIND[unit]} to ${most}${BEHIND[unit]}`;
  return scalarField({ type: 'string', description: range, pattern }, 'text', (text) => {
    const [, digits] = new RegExp(pattern).exec(text) ?? [];
    if (digits === undefined) {
      const [, number, given = ''] = ALIKE.exec(text) ?? [];
      const meant = Number(number);
      const same = ['', unit].includes(given.toLowerCase()) && meant >= least && meant <= most;
      const hint = same ? `; perhaps ${meant}${BEHIND[unit]}` : '';
      return refusal(`${quoted(text)} is no whole number of ${unit}`, `${range}${hint}`);
    }
    const value = Number(digits);
    if (value < least || value > most) return refusal(`${text} is out of range`, range);
    return value === 0 ? 0 : value;
  });
}
