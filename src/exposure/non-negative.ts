// The one check that every formula over real numbers makes on what it is given.

/** The value itself, or a RangeError that names it where it is negative, infinite or no number. */
export function nonNegative(what: string, value: number): number {
  if (!Number.isFinite(value) || value < 0) {
    throw new RangeError(`${what} is a finite number, at least 0, not ${value}.`);
  }
  return value;
}
