// Probabilities as ratios of whole numbers: 0/1 is never, 1/2 every second time by chance, 1/1 always.

import type { Ratio } from '../day.js';
import { quoted } from '../yaml/node.js';
import { type Field, type Refusal, refusal, scalarField } from './field.js';

const MAX_DENOMINATOR = 1_000_000;

const EXPECTED = 'a ratio from 0/1 to 1/1, such as 1/2';
const RATIO = /^(0|[1-9]\d{0,6})\/([1-9]\d{0,6})$/;

export const ratio: Field<Ratio> = scalarField(
  { type: 'string', description: EXPECTED, pattern: RATIO.source },
  'text',
  (text) => {
    const parts = RATIO.exec(text);
    if (parts === null) return noRatio(text);
    const [num, den] = [Number(parts[1]), Number(parts[2])];
    if (num > den || den > MAX_DENOMINATOR) {
      return refusal(`${text} is no probability`, `${EXPECTED}; the second number is at most ${MAX_DENOMINATOR}`);
    }
    return { num, den };
  },
);

/** "5%", "0.05", "1 in 20": other ways to write a probability. */
const ALIKE = /^(?:(\d{1,3})(?:\.(\d{1,4}))?( ?%)?|(\d{1,6}) ?(?:in|of|:|\/) ?(\d{1,6}))$/;

/** Why a text is no ratio, and what may have been meant. */
function noRatio(text: string): Refusal {
  const [, whole = '', fraction = '', percent, some, among] = ALIKE.exec(text) ?? [];
  const num = Number(some ?? `${whole}${fraction}`);
  const den = among === undefined ? 10 ** fraction.length * (percent === undefined ? 1 : 100) : Number(among);
  const meant = ALIKE.test(text) && den > 0 && num <= den;
  const shared = meant ? greatestDivisor(num, den) : 1;
  return refusal(
    `${quoted(text)} is no ratio`,
    meant ? `${EXPECTED}; perhaps ${num / shared}/${den / shared}` : EXPECTED,
  );
}

function greatestDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestDivisor(b, a % b);
}
