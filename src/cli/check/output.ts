// What `counterproof check --json` prints.
import { commandFor, type Judged } from '../../judge/verdict-text.js';
import { Source } from '../../scenario/source.js';
import { canonicalLine } from '../../trace/canonical.js';
import type { CheckOutput } from '../schemas/check.js';
import type { CheckedFile, CheckedRun } from './check-files.js';

type RunOutput = CheckOutput['files'][number]['runs'][number];

export function outputOf(files: readonly CheckedFile[]): CheckOutput {
  return {
    held: files.every(({ problems, runs }) => problems.length === 0 && runs.every(({ result }) => result.held)),
    files: files.map((checked) => ({
      file: checked.file,
      title: checked.title,
      problems: checked.problems.map(({ place, message, expected, nearest }) => ({
        place,
        message,
        expected,
        nearest,
      })),
      runs: checked.runs.map((run) => runOutput(checked, run)),
    })),
  };
}

function runOutput({ file, source }: CheckedFile, checked: CheckedRun): RunOutput {
  const { run, result, events, hashes, waiting } = checked;
  const { row, whatIf } = run;
  const places = new Source(file, source);
  const judged: Judged = { file, row, whatIf, fromMs: run.day.fromMs };
  return {
    row,
    whatIf,
    held: result.held,
    events,
    hashes,
    unmet: waiting
      .filter(({ met }) => !met)
      .map(({ what, offset, atMs }) => ({ what, place: places.place(offset), atMs })),
    verdicts: result.verdicts.map(({ around, sinceMs, ...verdict }) => ({
      ...verdict,
      around: around.map(canonicalLine),
      again: commandFor(judged, verdict.atMs, sinceMs),
    })),
    breaches: result.breaches.map(({ invariant, guards, sort, text, atMs, around }) => ({
      invariant,
      guards: [...guards],
      sort,
      text,
      atMs,
      around: around.map(canonicalLine),
      again: commandFor(judged, atMs),
    })),
  };
}
