// Verdicts and breaches as a person reads them: where it stands in the scenario, what was expected, what was seen, the events
// around it, and the one command that shows it again.
import { clockText } from '../trace/clock.js';
import { eventText } from '../trace/event-text.js';
import type { TraceEvent } from '../trace/kinds.js';
import type { BreachVerdict, Verdict } from './verdict.js';

/** Which run of which file was judged, and when its day starts (ms after midnight). */
export interface Judged {
  readonly file: string;
  /** As in ScenarioRun: "" where the file has no rows. */
  readonly row: string;
  readonly whatIf: string | null;
  readonly fromMs: number;
}

/** Shown before and after the moment by the command. */
const MARGIN_MS = 30_000;

/** The command that shows the trace about atMs again, or from sinceMs to atMs. */
export function commandFor(judged: Judged, atMs: number, sinceMs = atMs): string {
  const second = (ms: number) => clockText(judged.fromMs, Math.floor(Math.max(0, ms) / 1000) * 1000);
  const words = ['npx', 'counterproof', 'trace', judged.file];
  if (judged.row !== '') words.push('--row', judged.row);
  if (judged.whatIf !== null) words.push('--what-if', judged.whatIf);
  words.push('--from', second(sinceMs - MARGIN_MS), '--until', second(atMs + MARGIN_MS));
  return words.map(quotedForShell).join(' ');
}

/** A verdict with the scenario's own line and a caret below what was weighed; source is the text of the scenario file. */
export function verdictText(verdict: Verdict, judged: Judged, source: string): string {
  const { file, line, column } = verdict.place;
  const head = `${file}:${line}:${column}: ${verdict.held ? 'holds' : 'does not hold'}${runText(judged)}`;
  return text([head, ...excerpt(source, line, column), ...told(verdict, verdict.expected, verdict.seen, judged)]);
}

export function breachText(breach: BreachVerdict, judged: Judged): string {
  const head = `${judged.file}: ${breach.sort} at ${clockText(judged.fromMs, breach.atMs)}${runText(judged)}`;
  const expected = `${breach.invariant} (${breach.guards.join(', ')})`;
  return text([head, ...told(breach, expected, breach.text, judged)]);
}

/** " (away=5m, what if: a rota)", or nothing where the file has one run. */
function runText({ row, whatIf }: Judged): string {
  const parts = [row, whatIf === null ? '' : `what if: ${whatIf}`].filter((part) => part !== '');
  return parts.length === 0 ? '' : ` (${parts.join(', ')})`;
}

interface Told {
  readonly atMs: number;
  readonly sinceMs?: number;
  readonly around: readonly TraceEvent[];
}

function told({ atMs, sinceMs, around }: Told, expected: string, seen: string, judged: Judged): readonly string[] {
  return [
    `  expected  ${expected}`,
    `  seen      ${seen}`,
    ...around.map((event, index) => `  ${index === 0 ? 'around it' : '         '} ${eventText(event, judged.fromMs)}`),
    `  again     ${commandFor(judged, atMs, sinceMs)}`,
  ];
}

/** The line of the source with its number, and a caret under the column. */
function excerpt(source: string, line: number, column: number): readonly string[] {
  const written = source.split(/\r?\n/)[line - 1];
  if (written === undefined) return [];
  const margin = `${line}`.length;
  // Tabs are kept, so that the caret stands below the right character.
  const blank = written.slice(0, column - 1).replace(/[^\t]/g, ' ');
  return [`  ${line} | ${written}`, `  ${' '.repeat(margin)} | ${blank}^`];
}

function text(lines: readonly string[]): string {
  return `${lines.join('\n')}\n`;
}

/** A word as a POSIX shell takes it back. */
function quotedForShell(word: string): string {
  return /^[\w./:=@+-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`;
}
