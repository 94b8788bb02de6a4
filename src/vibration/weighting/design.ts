// The digital filter for W_h at a given rate: three second-order sections, of which the squared magnitude follows the analog
// definition. The bilinear transform alone bends so much near half the rate that at 3200 Hz the band of 1250 Hz would lose 89 %.
// So the high-pass, far below, is transformed and prewarped at its corner; the a-v transition has the analog poles, exp(s/rate),
// and a numerator fitted to its magnitude; the low-pass is a free section, fitted to what is left; and once more around.
import { type Biquad, biquadPower, minimumPhase, powerOf, type Quadratic, valueAt } from './biquad.js';
import { highPassPower, lowPassPower, transitionPower, W_H } from './definition.js';
import { leastSquares } from './linear.js';

/** In the order in which samples pass. After the second, they are band-limited; after the third, weighted. */
export interface Weighting {
  readonly rateHz: number;
  readonly highPass: Biquad;
  readonly lowPass: Biquad;
  readonly transition: Biquad;
}

/** At and above it the magnitude follows the definition within 0.15 % at the third-octave centres 6.3 to 1250 Hz. */
export const FULL_RATE_HZ = 3200;
/** Below it nothing is weighted; between the two the filter is right up to usableHz, and there is nothing above. */
export const LEAST_RATE_HZ = 1600;

const POINTS = 120;
const FROM_HZ = 4;
/** The band of 1250 Hz ends here. */
const BAND_END_HZ = 10 ** 3.15;
/** The fit counts this much less beyond the band. */
const WEIGHT_BEYOND = 0.03;
const BEYOND_HZ = 4000;
/** Of the rate: nearer to half of it no section can follow. */
const FITTED_PART = 0.4;
const ROUNDS = 2;
const REWEIGHTINGS = 8;
/** Above it the bilinear transform bends nothing in the band by 0.1 %, and what is left is too little to fit to. */
const STRAIGHT_RATE_HZ = 100_000;

/** A frequency of the fit; x = sin²(π f / rate). */
interface Point {
  readonly hz: number;
  readonly x: number;
  readonly weight: number;
}

/** rateHz: LEAST_RATE_HZ or more. */
export function designWeighting(rateHz: number): Weighting {
  if (!(rateHz >= LEAST_RATE_HZ)) throw new RangeError(`W_h needs ${LEAST_RATE_HZ} Hz or more, not ${rateHz} Hz`);
  const points = pointsOf(rateHz);
  const highPass = prewarpedHighPass(rateHz);
  const poles = transitionPoles(rateHz);
  const transitionBeside = (others: readonly Biquad[], target: (hz: number) => number) =>
    withNumerator(poles, points, ({ hz, x }) => target(hz) / product(others, x));
  const lowPassBeside = (transition: Biquad) =>
    rateHz > STRAIGHT_RATE_HZ
      ? prewarpedLowPass(rateHz)
      : fitted(points, ({ hz, x }) => wanted(hz) / product([highPass, transition], x));
  let transition = transitionBeside([], transitionPower);
  for (let round = 0; round < ROUNDS; round++) {
    transition = transitionBeside([highPass, lowPassBeside(transition)], wanted);
  }
  return { rateHz, highPass, lowPass: lowPassBeside(transition), transition };
}

/** Factor by which the digital filter weights a sine of this frequency, Hz. */
export function digitalWeightingAt({ rateHz, highPass, lowPass, transition }: Weighting, hz: number): number {
  return Math.sqrt(product([highPass, lowPass, transition], xOf(hz, rateHz)));
}

/** Squared magnitude that is aimed at. */
function wanted(hz: number): number {
  return highPassPower(hz) * lowPassPower(hz) * transitionPower(hz);
}

function product(sections: readonly Biquad[], x: number): number {
  return sections.reduce((power, section) => power * biquadPower(section, x), 1);
}

function xOf(hz: number, rateHz: number): number {
  return Math.sin((Math.PI * hz) / rateHz) ** 2;
}

/** Evenly spaced by ratio, as far up as the rate allows. */
function pointsOf(rateHz: number): readonly Point[] {
  const toHz = Math.min(BEYOND_HZ, FITTED_PART * rateHz);
  return Array.from({ length: POINTS }, (_, at) => {
    const hz = FROM_HZ * (toHz / FROM_HZ) ** (at / (POINTS - 1));
    return { hz, x: xOf(hz, rateHz), weight: hz <= BAND_END_HZ ? 1 : WEIGHT_BEYOND };
  });
}

function prewarpedHighPass(rateHz: number): Biquad {
  const { a0, ...poles } = prewarpedPoles(W_H.highPassHz, rateHz);
  return { b0: 1 / a0, b1: -2 / a0, b2: 1 / a0, ...poles };
}

function prewarpedLowPass(rateHz: number): Biquad {
  const { a0, ...poles } = prewarpedPoles(W_H.lowPassHz, rateHz);
  const gain = Math.tan((Math.PI * W_H.lowPassHz) / rateHz) ** 2 / a0;
  return { b0: gain, b1: 2 * gain, b2: gain, ...poles };
}

function prewarpedPoles(
  cornerHz: number,
  rateHz: number,
): { readonly a0: number; readonly a1: number; readonly a2: number } {
  const k = Math.tan((Math.PI * cornerHz) / rateHz);
  const a0 = 1 + k / W_H.bandQ + k ** 2;
  return { a0, a1: (2 * (k ** 2 - 1)) / a0, a2: (1 - k / W_H.bandQ + k ** 2) / a0 };
}

/** Denominator 1 + a1/z + a2/z² of which the roots are exp(s/rate) of the analog poles. */
function transitionPoles(rateHz: number): readonly [a1: number, a2: number] {
  const step = (2 * Math.PI * W_H.transitionHz) / rateHz;
  const damping = 1 / (2 * W_H.transitionQ);
  const real = -step * damping;
  // Less than 1: the two poles are a pair, not both real.
  const turn = step * Math.sqrt(1 - damping ** 2);
  return [-2 * Math.exp(real) * Math.cos(turn), Math.exp(2 * real)];
}

/** The section with these poles and the numerator that comes nearest, by ratio, to the squared magnitude. */
function withNumerator(
  [a1, a2]: readonly [number, number],
  points: readonly Point[],
  target: (point: Point) => number,
): Biquad {
  const unit = unitOf(points);
  const denominator = powerOf(1, a1, a2);
  const rows = points.map((point) => {
    const scale = point.weight / (target(point) * valueAt(denominator, point.x));
    const x = point.x / unit;
    return [scale, scale * x, scale * x ** 2];
  });
  const [p0, p1, p2] = leastSquares(
    rows,
    points.map(({ weight }) => weight),
  ) as [number, number, number];
  const [b0, b1, b2] = minimumPhase([p0, p1 / unit, p2 / unit ** 2]);
  return { b0, b1, b2, a1, a2 };
}

/** The section that comes nearest, by ratio, to the squared magnitude; it is found by solving N − T·(D − 1) = T again and again. */
function fitted(points: readonly Point[], target: (point: Point) => number): Biquad {
  const unit = unitOf(points);
  let denominator: Quadratic = [1, 0, 0];
  let numerator: Quadratic = [1, 0, 0];
  for (let round = 0; round < REWEIGHTINGS; round++) {
    const scales = points.map((point) => point.weight / (target(point) * valueAt(denominator, point.x / unit)));
    const rows = points.map((point, at) => {
      const [x, scale, power] = [point.x / unit, scales[at]!, target(point)];
      return [scale, scale * x, scale * x ** 2, -scale * power * x, -scale * power * x ** 2];
    });
    const [n0, n1, n2, d1, d2] = leastSquares(
      rows,
      points.map((point, at) => scales[at]! * target(point)),
    ) as [number, number, number, number, number];
    numerator = [n0, n1, n2];
    denominator = [1, d1, d2];
  }
  const inX = ([p0, p1, p2]: Quadratic): Quadratic => [p0, p1 / unit, p2 / unit ** 2];
  const [b0, b1, b2] = minimumPhase(inX(numerator));
  const [a0, a1, a2] = minimumPhase(inX(denominator));
  return { b0: b0 / a0, b1: b1 / a0, b2: b2 / a0, a1: a1 / a0, a2: a2 / a0 };
}

function unitOf(points: readonly Point[]): number {
  return points[points.length - 1]!.x;
}
