// Judges a scenario with other expectations, one a line, as `counterproof check` does: all of them in one run of the file.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { checkFiles } from '../../../src/cli/check/check-files.js';
import { renderProblem } from '../../../src/scenario/render.js';
import type { Shipped } from '../shipped.js';
import { rewritten } from './stage.js';

/** "void": it does not hold because there was nothing that it could be checked on. */
export type Finding = 'true' | 'false' | 'void';

/** By line, counted from 0: the finding in every run (row and what-if) in which it is judged. */
export type Findings = readonly ReadonlyMap<string, Finding>[];

/** The file that is judged lies in the folder afterwards. Throws where a line cannot be read, or an invariant is broken. */
export function judgeLines({ name, text }: Shipped, lines: readonly string[], folder: string): Findings {
  const path = join(folder, name);
  const mutated = rewritten(text, lines);
  writeFileSync(path, mutated);
  const firstLine = mutated.slice(0, mutated.indexOf(`- ${lines[0]}\n`)).split('\n').length;
  const findings = lines.map(() => new Map<string, Finding>());
  for (const { problems, runs } of checkFiles([path])) {
    if (problems.length > 0) throw new Error(problems.map(renderProblem).join('\n'));
    for (const { run, result } of runs) {
      if (result.breaches.length > 0) throw new Error(result.breaches.map(({ text: breach }) => breach).join('\n'));
      for (const { held, place, seen } of result.verdicts) {
        const finding = held ? 'true' : seen.endsWith('so nothing was checked') ? 'void' : 'false';
        findings[place.line - firstLine]?.set(`${run.row} / ${run.whatIf}`, finding);
      }
    }
  }
  return findings;
}
