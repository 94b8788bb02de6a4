// The frequency weighting W_h and its band limits, as the standard defines them: analog, at any frequency.
// Source: ISO 8041-1:2017 (ISO 5349-1:2001, Annex A, gives the same, rounded).

export const W_H = {
  highPassHz: 10 ** 0.8,
  lowPassHz: 10 ** 3.1,
  bandQ: Math.SQRT1_2,
  /** f3 = f4, from which the weighting falls with the frequency. */
  transitionHz: 100 / (2 * Math.PI),
  transitionQ: 0.64,
} as const;

/** Squared magnitude of the high-pass. */
export function highPassPower(hz: number): number {
  const ratio = hz / W_H.highPassHz;
  return ratio ** 4 / secondOrder(ratio, W_H.bandQ);
}

/** Squared magnitude of the low-pass. */
export function lowPassPower(hz: number): number {
  return 1 / secondOrder(hz / W_H.lowPassHz, W_H.bandQ);
}

/** Squared magnitude of the a-v transition: flat below, as 1/f above. */
export function transitionPower(hz: number): number {
  const ratio = hz / W_H.transitionHz;
  return (1 + ratio ** 2) / secondOrder(ratio, W_H.transitionQ);
}

/** Factor by which W_h weights a sine of this frequency, Hz. */
export function weightingAt(hz: number): number {
  return Math.sqrt(highPassPower(hz) * lowPassPower(hz) * transitionPower(hz));
}

/** Squared magnitude of 1 + s/(Q·ω) + (s/ω)² at the ratio f/f0. */
function secondOrder(ratio: number, q: number): number {
  return (1 - ratio ** 2) ** 2 + (ratio / q) ** 2;
}
