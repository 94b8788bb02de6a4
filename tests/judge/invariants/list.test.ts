// The list of invariants is whole, and every run of random days holds to it.

import { readdirSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { Bench } from '../../../src/bench/bench.js';
import type { Invariant } from '../../../src/judge/invariants/invariant.js';
import { INVARIANTS } from '../../../src/judge/invariants/list.js';
import { Invariants } from '../../../src/judge/invariants/watcher.js';
import type { Day } from '../../../src/scenario/day.js';
import { arbitraryDay } from '../../days/arbitrary-day.js';
import { PATIENCE_MS, PATIENT } from '../../days/patience.js';

vi.setConfig({ testTimeout: PATIENCE_MS });

const FOLDER = new URL('../../../src/judge/invariants/', import.meta.url);

function isInvariant(value: unknown): value is Invariant {
  return typeof value === 'object' && value !== null && 'guards' in value && 'watch' in value;
}

function breachesOf(day: Day): readonly string[] {
  const invariants = new Invariants();
  Bench.open(day, { trace: 'watched', watchers: [(event) => invariants.see(event)] }).run();
  return invariants.end(day.untilMs).map(({ text }) => text);
}

describe('the list of invariants', () => {
  it('has every one that a file of the folder exports', async () => {
    const modules = await Promise.all(readdirSync(FOLDER).map((file) => import(new URL(file, FOLDER).href)));
    const exported = modules.flatMap((module: object) => Object.values(module).filter(isInvariant));
    expect(exported.length).toBeGreaterThan(10);
    expect(new Set(INVARIANTS)).toEqual(new Set(exported));
    expect(INVARIANTS.length).toBe(exported.length);
  });

  it.each([
    ['orderly', false, 30],
    ['rough', true, 30],
  ])('holds on %s random days', (_, rough, numRuns) => {
    const check = (day: Day) => {
      expect(breachesOf(day)).toEqual([]);
    };
    fc.assert(fc.property(arbitraryDay({ rough }), check), { ...PATIENT, numRuns, seed: 11 });
  });
});
