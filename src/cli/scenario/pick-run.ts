// Picks one run of a scenario file for the commands that show one: by its row and what-if, or the first as written.
import { readScenarioFile } from '../../scenario/file.js';
import { nearestWord } from '../../scenario/nearest.js';
import { renderProblem } from '../../scenario/render.js';
import type { Scenario, ScenarioRun } from '../../scenario/scenario.js';
import { scenarioWords } from './words.js';

export interface Pick {
  readonly row?: string;
  readonly whatIf?: string;
}

/** A sentence or more on what is wrong with the input. */
export interface Refusal {
  readonly refusal: string;
}

export function pickRun(file: string, pick: Pick): { scenario: Scenario; run: ScenarioRun } | Refusal {
  const reading = readScenarioFile(file, scenarioWords());
  if (!reading.ok) return { refusal: `${reading.problems.map(renderProblem).join('\n\n')}\n` };
  const { scenario } = reading;
  const { whatIf = null } = pick;
  if (whatIf !== null && !scenario.whatIfs.includes(whatIf)) {
    return { refusal: unknown(file, 'what-if', whatIf, scenario.whatIfs) };
  }
  const runs = [...scenario.runs, ...scenario.whatIfRuns].filter((run) => run.whatIf === whatIf);
  const run = pick.row === undefined ? runs[0] : runs.find(({ row }) => row === pick.row);
  if (run === undefined) {
    const rows = scenario.runs.map(({ row }) => row).filter((row) => row !== '');
    return { refusal: unknown(file, 'row', pick.row ?? '', rows) };
  }
  return { scenario, run };
}

/** There is no such row, what-if, tool or worker: those that there are, and the nearest. */
export function unknown(file: string, what: string, word: string, known: readonly string[]): string {
  if (known.length === 0) return `${file}: this scenario has no ${what}s, so there is none called "${word}"\n`;
  const nearest = nearestWord(word, known);
  const hint = nearest === null ? '' : `; the nearest is "${nearest}"`;
  return `${file}: no ${what} is called "${word}"; there are ${known.map((name) => `"${name}"`).join(', ')}${hint}\n`;
}
