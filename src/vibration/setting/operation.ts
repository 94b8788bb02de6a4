// Several recordings of one operation with one hand, together: their energy average, how far they spread, and whether there are
// enough of them (ISO 5349-2:2001, from memory).
import { energyAverage } from '../../exposure/energy-average.js';
import type { Finding } from '../recording/recording.js';

/** What one recording gives: a_hv in m/s², and how long it is. */
export interface SampleValue {
  readonly name: string;
  readonly total: number;
  readonly durationS: number;
}

export interface OperationValue {
  /** Energy average of a_hv, m/s². */
  readonly total: number;
  readonly durationS: number;
  readonly least: number;
  readonly greatest: number;
  /** Standard deviation of the samples over their mean; null where there is one alone. */
  readonly variation: number | null;
  readonly findings: readonly Finding[];
}

/** ISO 5349-2:2001 (from memory): at least three samples, at least a minute in all, none shorter than 8 s. */
const LEAST_SAMPLES = 3;
const LEAST_DURATION_S = 60;
export const LEAST_SAMPLE_S = 8;
/** Where samples must be shorter, many more of them are needed: ours, for "many". */
const MANY_SAMPLES = 10;
/** Samples that spread more are not of one operation, or not enough of them (ours). */
const MOST_VARIATION = 0.3;

/** samples: one at least. */
export function operationValue(samples: readonly SampleValue[]): OperationValue {
  if (samples.length === 0) throw new RangeError('an operation has a sample at least');
  const values = samples.map(({ total }) => total);
  const durationS = samples.reduce((sum, sample) => sum + sample.durationS, 0);
  const variation = variationOf(values);
  return {
    total: energyAverage(
      samples.map(({ total, durationS: seconds }) => ({ magnitude: total, durationMs: 1000 * seconds })),
    ),
    durationS,
    least: Math.min(...values),
    greatest: Math.max(...values),
    variation,
    findings: findings(samples, durationS, variation),
  };
}

function variationOf(values: readonly number[]): number | null {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  if (values.length < 2 || mean === 0) return null;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return Math.sqrt(squares / (values.length - 1)) / mean;
}

function findings(samples: readonly SampleValue[], durationS: number, variation: number | null): readonly Finding[] {
  const found: Finding[] = [];
  const doubt = (what: string, says: string) => found.push({ weight: 'doubts', what, says });
  if (samples.length < LEAST_SAMPLES) {
    doubt('few-samples', `${samples.length} of at least ${LEAST_SAMPLES} samples of the operation: measure it again`);
  }
  if (durationS < LEAST_DURATION_S) {
    doubt('short-total', `${durationS.toFixed(0)} s are measured in all, of at least ${LEAST_DURATION_S} s`);
  }
  const twice = samples.find(({ total, durationS: seconds }, at) =>
    samples.slice(0, at).some((other) => other.total === total && other.durationS === seconds),
  );
  if (twice !== undefined) {
    doubt('same-recording', `${twice.name} is one of the others to the last digit: name each recording once`);
  }
  const short = samples.filter((sample) => sample.durationS < LEAST_SAMPLE_S);
  if (short.length > 0 && samples.length < MANY_SAMPLES) {
    const which = short.map(({ name, durationS: seconds }) => `${name} (${seconds.toFixed(1)} s)`).join(', ');
    const rest = `measure longer, or ${MANY_SAMPLES} samples at least`;
    doubt('short-sample', `shorter than ${LEAST_SAMPLE_S} s, so not reliable for low frequencies: ${which}; ${rest}`);
  }
  if (variation !== null && variation > MOST_VARIATION) {
    const says = `the samples spread by ${(100 * variation).toFixed(0)} % of their mean: measure more, or tell operations apart`;
    doubt('wide-spread', says);
  }
  return found;
}
