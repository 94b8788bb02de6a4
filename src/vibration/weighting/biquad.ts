// Second-order digital filters, and their squared magnitude as a function of x = sin²(π f / rate), in which a numerator or a
// denominator is a polynomial of second degree: p0 + p1·x + p2·x². What is linear in these three can be fitted by linear steps.

/** (b0 + b1/z + b2/z²) / (1 + a1/z + a2/z²) */
export interface Biquad {
  readonly b0: number;
  readonly b1: number;
  readonly b2: number;
  readonly a1: number;
  readonly a2: number;
}

export type Quadratic = readonly [p0: number, p1: number, p2: number];

export function valueAt([p0, p1, p2]: Quadratic, x: number): number {
  return p0 + x * (p1 + x * p2);
}

/** |c0 + c1/z + c2/z²|² on the unit circle. */
export function powerOf(c0: number, c1: number, c2: number): Quadratic {
  // z + 1/z = 2 − 4x on the unit circle.
  return [(c0 + c1 + c2) ** 2, -4 * (c0 * c1 + c1 * c2 + 4 * c0 * c2), 16 * c0 * c2];
}

/** Squared magnitude of a filter at x. */
export function biquadPower({ b0, b1, b2, a1, a2 }: Biquad, x: number): number {
  return valueAt(powerOf(b0, b1, b2), x) / valueAt(powerOf(1, a1, a2), x);
}

/**
 * The polynomial c0 + c1/z + c2/z² that has this squared magnitude, with both its roots inside the unit circle. Throws where there is
 * none: where the squared magnitude is not above zero for all x from 0 to 1.
 */
export function minimumPhase(power: Quadratic): readonly [c0: number, c1: number, c2: number] {
  const [p0, p1, p2] = power;
  const dc = Math.sqrt(p0);
  const nyquist = Math.sqrt(p0 + p1 + p2);
  // c0 + c1 + c2 = dc, c0 − c1 + c2 = nyquist, 16·c0·c2 = p2; of the two the greater is c0.
  const sum = (dc + nyquist) / 2;
  const c1 = (dc - nyquist) / 2;
  const difference = Math.sqrt(sum ** 2 - p2 / 4);
  if (!Number.isFinite(c1 + difference)) throw new Error(`no filter has the squared magnitude ${power.join(', ')}`);
  const c0 = (sum + difference) / 2;
  return [c0, c1, p2 / (16 * c0)];
}
