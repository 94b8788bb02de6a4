// A number above 0 that is given as an option.
import { InvalidArgumentError } from 'commander';

/** Reads it; greatest and unit complete the sentence where it is something else. */
export function positive(greatest: number, unit: string): (given: string) => number {
  return (given) => {
    const value = /^\d{1,9}(?:\.\d{1,6})?$/.test(given) ? Number(given) : Number.NaN;
    if (value > 0 && value <= greatest) return value;
    throw new InvalidArgumentError(
      `It is in ${unit}, above 0 and up to ${greatest}, in plain digits without the unit.`,
    );
  };
}
