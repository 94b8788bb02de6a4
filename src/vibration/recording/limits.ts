// What an acceleration at a handle can be.

/** g, the standard acceleration of free fall (ISO 80000-3: exact). */
export const STANDARD_GRAVITY = 9.80665;

/** No handle reaches it, m/s²; a greater sample is no measurement, and its square could overflow the sums. */
export const GREATEST_ACCELERATION = 1e6;

/** Beyond it nobody samples vibration, and W_h is not held to its definition; a greater rate comes from a damaged file. */
export const GREATEST_RATE_HZ = 1e6;

export function isPossible(acceleration: number): boolean {
  return acceleration >= -GREATEST_ACCELERATION && acceleration <= GREATEST_ACCELERATION;
}
