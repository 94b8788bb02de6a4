// What `counterproof check` prints for people.
import { breachText, type Judged, verdictText } from '../../judge/verdict-text.js';
import { renderProblem } from '../../scenario/render.js';
import { Source } from '../../scenario/source.js';
import { clockText } from '../../trace/clock.js';
import type { CheckedFile, CheckedRun } from './check-files.js';

/** One file: a line where it holds, else everything that does not, each with the command that shows it again. */
export function textOf(file: CheckedFile): string {
  if (file.problems.length > 0) return `${file.problems.map(renderProblem).join('\n\n')}\n\n`;
  const failed = file.runs.filter(({ result }) => !result.held);
  const expectations = file.runs.reduce((sum, { result }) => sum + result.verdicts.length, 0);
  const events = file.runs.reduce((sum, run) => sum + run.events, 0);
  const what = `${counted(file.runs.length, 'run')}, ${counted(expectations, 'expectation')}, ${counted(events, 'event')}`;
  const notes = unmetText(file);
  if (failed.length === 0) return `holds          ${file.file}  (${what})\n${notes}`;
  return `does not hold  ${file.file}  (${what})\n${notes}\n${failed.map((run) => failuresOf(file, run)).join('\n')}\n`;
}

export function summaryOf(files: readonly CheckedFile[]): string {
  const unread = files.filter(({ problems }) => problems.length > 0).length;
  const runs = files.flatMap((file) => file.runs);
  const failed = runs.filter(({ result }) => !result.held).length;
  const parts = [`${counted(runs.length, 'run')} of ${counted(files.length - unread, 'file')}`];
  if (failed > 0) parts.push(`${failed} do${failed === 1 ? 'es' : ''} not hold`);
  else if (runs.length > 0) parts.push('all hold');
  if (unread > 0) parts.push(`${counted(unread, 'file')} could not be read`);
  return `${parts.join(', ')}\n`;
}

function failuresOf({ file, source }: CheckedFile, { run, result, nothing }: CheckedRun): string {
  const judged = { file, row: run.row, whatIf: run.whatIf, fromMs: run.day.fromMs };
  const verdicts = result.verdicts.filter(({ held }) => !held).map((verdict) => verdictText(verdict, judged, source));
  const told = [...verdicts, ...result.breaches.map((breach) => breachText(breach, judged))];
  return [...told, ...nothingText(nothing, judged)].join('\n');
}

/** A line for each step whose faults did not all come about, of all runs together. */
function unmetText({ file, source, runs }: CheckedFile): string {
  const all = runs.flatMap(({ waiting }) => waiting);
  const unmet = all.filter(({ met }) => !met);
  const places = new Source(file, source);
  return [...new Set(unmet.map(({ offset }) => offset))]
    .sort((a, b) => a - b)
    .map((offset) => {
      const [of, never] = [all, unmet].map((faults) => faults.filter((fault) => fault.offset === offset));
      const count = of?.length === 1 ? '1 fault' : `${never?.length} of ${of?.length} faults`;
      const fate = never?.[0]?.what === 'attack' ? 'met no pairing' : 'never came about';
      return `note           ${file}:${places.place(offset).line}  ${count} planned here ${fate}\n`;
    })
    .join('');
}

/** Steps that did not happen are a common reason why something expected did not either. */
function nothingText(nothing: CheckedRun['nothing'], { fromMs }: Judged): readonly string[] {
  const [first] = nothing;
  if (first === undefined) return [];
  const what = `${counted(nothing.length, 'event')} of this day came to nothing`;
  return [`${what}, first ${first.verb} at ${clockText(fromMs, first.at)} (${first.by}): ${first.reason}\n`];
}

function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? '' : 's'}`;
}
