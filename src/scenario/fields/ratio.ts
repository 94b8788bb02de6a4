// Probabilities as ratios of whole numbers: 0/1 is never, 1/2 every second time by chance, 1/1 always.

import type { Ratio } from '../day.js';
import { quoted } from '../yaml/node.js';
import { type Field, refusal, scalarField } from './field.js';

const MAX_DENOMINATOR = 1_000_000;

const EXPECTED = 'a ratio from 0/1 to 1/1, such as 1/2';
const RATIO = /^(0|[1-9]\d{0,6})\/([1-9]\d{0,6})$/;

export const ratio: Field<Ratio> = scalarField(
  { type: 'string', description: EXPECTED, pattern: RATIO.source },
  'text',
  (text) => {
    const parts = RATIO.exec(text);
    if (parts === null) return refusal(`${quoted(text)} is no ratio`, EXPECTED);
    const [num, den] = [Number(parts[1]), Number(parts[2])];
    if (num > den || den > MAX_DENOMINATOR) {
      return refusal(`${text} is no probability`, `${EXPECTED}; the second number is at most ${MAX_DENOMINATOR}`);
    }
    return { num, den };
  },
);
