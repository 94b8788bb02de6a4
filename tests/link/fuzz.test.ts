// TAL-4: nothing that is received makes the codec throw, nothing that was not sent is read, and every frame is counted.
import { describe, expect, test } from 'vitest';
import { CHIP, NO_KEYS } from '../../src/link/cipher.js';
import { FRAME_REFUSALS } from '../../src/link/frames.js';
import { type FuzzCounts, fuzz, type Outcomes } from './fuzz.js';

/** tests/link/campaign.ts runs twenty times as many of the first two, and ten times of the third. */
const COUNTS: FuzzCounts = { random: 50_000, mutated: 50_000, hostile: 10_000 };

const sum = (outcomes: Outcomes) => Object.values(outcomes).reduce((all, count) => all + count, 0);

describe.each([
  ['CHIP', CHIP],
  ['NO_KEYS', NO_KEYS],
])('%s', (_, cipher) => {
  const report = fuzz(cipher, COUNTS, 4711);

  test('nothing goes wrong', () => {
    expect(report.faults).toEqual([]);
  });

  test('every frame comes to one outcome', () => {
    expect([sum(report.random), sum(report.mutated), sum(report.hostile)]).toEqual([50_000, 50_000, 10_000]);
  });

  test('nothing random and nothing changed is read, and much that is hostile is', () => {
    expect(report.random.read).toBe(0);
    expect(report.mutated.read).toBe(0);
    expect(report.hostile.read).toBeGreaterThan(1_000);
  });

  test('every reason to refuse is reached, again and again', () => {
    for (const reason of FRAME_REFUSALS) {
      expect(report.random[reason] + report.mutated[reason] + report.hostile[reason], reason).toBeGreaterThan(500);
    }
    expect(report.hostile.malformed).toBeGreaterThan(1_000);
  });
});
