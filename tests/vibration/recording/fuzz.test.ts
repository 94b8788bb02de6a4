// Two thousand damaged files; tests/vibration/recording/campaign.ts reads ten thousand.
import { expect, it } from 'vitest';
import { FINDINGS } from '../../../src/vibration/recording/findings.js';
import { fuzzRecordings } from './fuzz.js';

/** Made only where a file cannot be read further: open.test.ts. */
const NOT_HERE = ['reading-failed', 'changed'];

it('damaged files are refused, or read to finite samples with all that is wrong told', {
  timeout: 300_000,
}, async () => {
  const { faults, refused, withSamples, measured, found } = await fuzzRecordings(2000, 4);
  expect(faults).toEqual([]);
  // Both happen often, and each finding at least once, or the damage is too much or too little.
  expect(Math.min(refused, withSamples, measured)).toBeGreaterThan(400);
  expect(FINDINGS.filter((what) => !(what in found) && !NOT_HERE.includes(what))).toEqual([]);
});
