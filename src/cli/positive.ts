// A number above 0 that is given as an option.
import { InvalidArgumentError } from 'commander';

export function positive(given: string): number {
  const value = /^\d{1,9}(?:\.\d{1,6})?$/.test(given) ? Number(given) : Number.NaN;
  if (value > 0) return value;
  throw new InvalidArgumentError('It is a number above 0, in plain digits.');
}
