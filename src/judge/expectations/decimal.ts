// Exact comparison of a scenario's decimals with the integers of a trace. No fraction is ever rounded on the way.
import type { Comparison, Decimal } from '../../scenario/expectation.js';

/** Whether `amount` units, of which `unitsPerOne` make one, compare as wanted. Exact for every safe integer. */
export function compares(compare: Comparison, amount: number, unitsPerOne: number): boolean {
  switch (compare.is) {
    case 'exactly':
      return order(amount, unitsPerOne, compare.value) === 0;
    case 'between':
      return order(amount, unitsPerOne, compare.low) >= 0 && order(amount, unitsPerOne, compare.high) <= 0;
    case 'at least':
      return order(amount, unitsPerOne, compare.value) >= 0;
    case 'at most':
      return order(amount, unitsPerOne, compare.value) <= 0;
    case 'above':
      return order(amount, unitsPerOne, compare.value) > 0;
    case 'below':
      return order(amount, unitsPerOne, compare.value) < 0;
  }
}

/** Negative where amount / unitsPerOne lies below the decimal, 0 where it equals it. */
function order(amount: number, unitsPerOne: number, value: Decimal): number {
  const left = BigInt(amount) * 10n ** BigInt(value.places);
  const right = BigInt(value.digits) * BigInt(unitsPerOne);
  return left < right ? -1 : left > right ? 1 : 0;
}

/**
 * The comparison in words. `shift` moves the decimal point so many places to the left, for units a power of ten larger:
 * 2500 ms are 2.5 s with a shift of 3.
 */
export function comparisonText(compare: Comparison, unit: string, shift: number): string {
  const shown = ({ digits, places }: Decimal) => decimalText(BigInt(digits), places + shift);
  if (compare.is === 'between') return `between ${shown(compare.low)} and ${shown(compare.high)}${unit}`;
  return `${compare.is} ${shown(compare.value)}${unit}`;
}

/** Places shown of a quotient, where it has that many. */
const PLACES_SHOWN = 4;

/** amount / unitsPerOne, cut (not rounded) after four places; "…" follows where something was cut. */
export function quotientText(amount: number, unitsPerOne: number): string {
  const scaled = BigInt(amount) * 10n ** BigInt(PLACES_SHOWN);
  const text = decimalText(scaled / BigInt(unitsPerOne), PLACES_SHOWN);
  return scaled % BigInt(unitsPerOne) === 0n ? text : `${text}…`;
}

/** digits / 10^places, without trailing zeros after the point. */
function decimalText(digits: bigint, places: number): string {
  const sign = digits < 0n ? '-' : '';
  const padded = `${digits < 0n ? -digits : digits}`.padStart(places + 1, '0');
  const whole = padded.slice(0, padded.length - places);
  const fraction = padded.slice(padded.length - places).replace(/0+$/, '');
  return fraction === '' ? `${sign}${whole}` : `${sign}${whole}.${fraction}`;
}
