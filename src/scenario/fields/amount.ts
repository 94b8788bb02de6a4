// Whole numbers with a unit behind them: 8%, 5 bytes, 400ppm, -20ppm/h.
import { quoted } from '../yaml/node.js';
import { type Field, refusal, scalarField } from './field.js';

const UNITS = {
  '%': ['%', '8%'],
  bytes: [' bytes?', '5 bytes'],
  ppm: ['ppm', '400ppm'],
  'ppm/h': ['ppm/h', '20ppm/h'],
} as const;

/** A whole number from least to most in the unit, with a sign where least is below 0. `what` completes "expected …". */
export function amount(unit: keyof typeof UNITS, least: number, most: number, what: string): Field<number> {
  const [behind, example] = UNITS[unit];
  const pattern = `^(${least < 0 ? '[+-]?' : ''}(?:0|[1-9]\\d{0,8}))${behind}$`;
  const expected = `${what}, such as ${example}`;
  return scalarField({ type: 'string', description: expected, pattern }, 'text', (text) => {
    const [, digits] = new RegExp(pattern).exec(text) ?? [];
    if (digits === undefined) return refusal(`${quoted(text)} is no whole number of ${unit}`, expected);
    // No minus nought.
    const value = Number(digits) + 0;
    if (value >= least && value <= most) return value;
    return refusal(`${text} is out of range`, `${what}, from ${least} to ${most} ${unit}`);
  });
}
