// Every shipped scenario holds, its expectations and the invariants, as written and with every what-if; the actors and the
// table make the same trace of it; and a run done twice is the same.
import { describe, expect, test, vi } from 'vitest';
import { Bench } from '../../src/bench/bench.js';
import { actorEngine } from '../../src/bench/engines/actors.js';
import { tableEngine } from '../../src/bench/engines/table.js';
import { judge } from '../../src/judge/judge.js';
import type { EngineMaker } from '../../src/port/engine.js';
import type { Day } from '../../src/scenario/day.js';
import { hashTrace } from '../../src/trace/hash.js';
import type { TraceEvent } from '../../src/trace/kinds.js';
import { read, SHIPPED } from './shipped.js';

/** Actors are slow, and other tests run beside these. */
vi.setConfig({ testTimeout: 120_000 });

function run(day: Day, engine: EngineMaker): readonly TraceEvent[] {
  const bench = Bench.open(day, { engine });
  bench.run();
  return bench.events;
}

test('at least the demo day and twenty edge cases are shipped', () => {
  expect(SHIPPED.map(({ name }) => name)).toContain('lock-day.yaml');
  expect(SHIPPED.length).toBeGreaterThan(20);
});

describe.each(SHIPPED)('$name', ({ name, text }) => {
  const { runs, whatIfRuns } = read(text, name);

  test('holds, and is the same on both engines and every time', () => {
    for (const { row, whatIf, day, expectations } of [...runs, ...whatIfRuns]) {
      const onTable = run(day, tableEngine);
      const { verdicts, breaches } = judge(onTable, expectations);
      const which = { row, whatIf };
      expect({ ...which, broken: verdicts.filter(({ held }) => !held), breaches }).toEqual({
        ...which,
        broken: [],
        breaches: [],
      });
      const hashes = hashTrace(onTable);
      expect({ ...which, hashes: hashTrace(run(day, tableEngine)) }).toEqual({ ...which, hashes });
      expect({ ...which, hashes: hashTrace(run(day, actorEngine)) }).toEqual({ ...which, hashes });
    }
  });

  test('expects something of every run', () => {
    for (const { expectations } of [...runs, ...whatIfRuns]) expect(expectations.length).toBeGreaterThan(0);
  });
});
