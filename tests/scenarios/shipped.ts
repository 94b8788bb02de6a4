// The scenarios that are shipped, and what a test needs to read them.
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { scenarioWords } from '../../src/cli/scenario/words.js';
import { readScenario } from '../../src/scenario/read.js';
import { renderProblem } from '../../src/scenario/render.js';
import type { Scenario } from '../../src/scenario/scenario.js';

const FOLDER = fileURLToPath(new URL('../../scenarios/', import.meta.url));

export interface Shipped {
  /** For example "lock-day.yaml". */
  readonly name: string;
  readonly path: string;
  readonly text: string;
}

export const SHIPPED: readonly Shipped[] = readdirSync(FOLDER)
  .filter((name) => name.endsWith('.yaml'))
  .sort()
  .map((name) => ({ name, path: FOLDER + name, text: readFileSync(FOLDER + name, 'utf8') }));

export const WORDS = scenarioWords();

/** The scenario of a text that must be good. */
export function read(text: string, name: string): Scenario {
  const reading = readScenario(text, name, WORDS);
  if (!reading.ok) throw new Error(reading.problems.map(renderProblem).join('\n'));
  return reading.scenario;
}
