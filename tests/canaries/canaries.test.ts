// Each canary is found by an invariant, on the one day that is known to show it. matrix.ts tries them on many days.
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CANARIES } from './canaries.js';
import { type Canary, withFault } from './canary.js';
import type { Finding, Look } from './finding.js';
import { shared } from './rows.js';
import { run } from './run.js';
import { Workshop } from './workshop.js';

/** On a machine that is busy with other things too. */
const MOST_MS = 600_000;
/** Fewer than this would be no net to speak of. */
const LEAST = 24;

const workshop = new Workshop();
afterAll(() => workshop.close(), MOST_MS);

const known = CANARIES.filter(({ seed }) => seed !== null);

function lookOf({ days = 'usual', keys = false, seed }: Canary): Look {
  return { days, keys, fromSeed: seed!, count: 1, seconds: 60 };
}

describe('canaries', () => {
  const broken = new Map<Canary, readonly string[]>();
  const asItIs = new Map<string, readonly string[]>();

  beforeAll(async () => {
    const looks = new Map(known.map((canary) => [JSON.stringify(lookOf(canary)), lookOf(canary)]));
    await shared([...looks], async ([name, look]) => asItIs.set(name, brokenIn(await run(workshop, null, look))));
    await shared(known, async (canary) => broken.set(canary, brokenIn(await run(workshop, canary, lookOf(canary)))));
  }, MOST_MS);

  it.each(known.map((canary) => [canary.name, canary] as const))('%s', (_, canary) => {
    const before = asItIs.get(JSON.stringify(lookOf(canary)));
    expect(before).toEqual([]);
    expect(broken.get(canary)).not.toEqual([]);
  });

  it.each(CANARIES.map((canary) => [canary.name, canary] as const))('still fits the sources: %s', (_, canary) => {
    expect(workshop.faulty(canary)).not.toBe('');
  });

  it('are many, each with a name of its own', () => {
    expect(known.length).toBeGreaterThanOrEqual(LEAST);
    expect(new Set(CANARIES.map(({ name }) => name)).size).toBe(CANARIES.length);
  });
});

describe('a fault', () => {
  const canary = (replace: Canary['replace']): Canary => {
    return { name: 'a slip', breaks: ['ACC-1'], file: 'meter.ts', replace, seed: null };
  };

  it('is put where its old text stands', () => {
    expect(withFault('dose += a * a;', canary([['a * a', 'a * b']]))).toBe('dose += a * b;');
  });

  it.each(['dose += a;', 'dose += a * a + a * a;'])('is refused where that is not once: %s', (text) => {
    expect(() => withFault(text, canary([['a * a', 'a * b']]))).toThrow('finds its text');
  });

  it('is refused where it changes nothing', () => {
    expect(() => withFault('dose += a * a;', canary([['a * a', 'a * a']]))).toThrow('changes nothing');
  });
});

function brokenIn(findings: readonly Finding[]): readonly string[] {
  return findings.flatMap(({ broken }) => broken);
}
