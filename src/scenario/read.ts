// Reads a scenario: the text of a file in, its days with all that is expected of them out, or every problem at once.
import { MAX_EVENTS_IN_ALL, MAX_ITEMS_IN_ALL } from './limits.js';
import type { Problem } from './problem.js';
import { MAX_PROBLEMS, Problems } from './problems.js';
import { type RowRuns, readRow } from './read-row.js';
import { fillIn, parameterOf, type Row, readRows, reportUnused } from './rows.js';
import type { Scenario } from './scenario.js';
import { Source } from './source.js';
import { SAME_IN_ALL_ROWS } from './top.js';
import type { Words } from './words.js';
import { entryOf, type MapNode, nodeWord } from './yaml/node.js';
import { parseTree } from './yaml/parse.js';

export type Reading =
  | { readonly ok: true; readonly scenario: Scenario }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/**
 * Reads the text of a scenario file; touches no file itself. `file` is what places call it. A byte order mark at the
 * beginning is allowed, as YAML has it. Never throws for any text.
 */
export function readScenario(text: string, file: string, words: Words): Reading {
  const source = new Source(file, text.startsWith('\ufeff') ? text.slice(1) : text);
  const problems = new Problems(source);
  const root = parseTree(source.text, problems);
  const map = root?.kind === 'map' ? root : null;
  if (root !== null && map === null) {
    const expected = 'a map with the keys title, regime, from, until, tools, workers, day';
    problems.at(root, 'value', `here stands ${nodeWord(root)}`, `expected ${expected}`);
  }
  const runs = map === null ? [] : readRuns(map, words, source, problems);
  const [first] = runs;
  if (problems.size > 0 || first === undefined || map === null) return { ok: false, problems: problems.list() };
  const { title, covers } = first;
  const whatIfRuns = runs.flatMap(({ whatIfs }) => whatIfs);
  const whatIfs = first.whatIfs.flatMap(({ whatIf }) => (whatIf === null ? [] : [whatIf]));
  const scenario = { file, title, covers, runs: runs.map(({ asWritten }) => asWritten), whatIfs, whatIfRuns };
  return { ok: true, scenario };
}

/** The runs of every row. */
function readRuns(map: MapNode, words: Words, source: Source, problems: Problems): readonly RowRuns[] {
  const rowsNode = entryOf(map, 'rows')?.value;
  const rows = readRows(rowsNode, problems);
  if (tooMuch(map, rows, problems)) return [];
  const title = entryOf(map, 'title')?.value;
  if (title !== undefined && parameterOf(title) !== null) {
    problems.at(title, 'unexpected', 'a title has no parameter', 'the title is the same for all rows');
  }
  const used = new Set<string>();
  const runs: RowRuns[] = [];
  let events = 0;
  for (const row of rows) {
    const run = readRow(filledIn(map, row, used, problems), row.label, words, source, problems);
    runs.push(run);
    events += [run.asWritten, ...run.whatIfs].reduce((sum, { day }) => sum + day.events.length, 0);
    if (events > MAX_EVENTS_IN_ALL) {
      const message = `all rows and what-ifs together have more than ${MAX_EVENTS_IN_ALL} events`;
      problems.at(map, 'limit', message, 'split the scenario');
    }
    if (events > MAX_EVENTS_IN_ALL || problems.size >= MAX_PROBLEMS) return runs;
  }
  reportUnused(rowsNode, used, problems);
  return runs;
}

function filledIn(map: MapNode, row: Row, used: Set<string>, problems: Problems): MapNode {
  const entries = map.entries.map((entry) => {
    if (SAME_IN_ALL_ROWS.includes(entry.key)) return entry;
    return { ...entry, value: fillIn(entry.value, row, used, problems) };
  });
  return { ...map, entries };
}

function tooMuch(map: MapNode, rows: readonly Row[], problems: Problems): boolean {
  const lists = ['day', 'expect', 'notes'].map((key) => entryOf(map, key)?.value);
  const items = lists.reduce((sum, list) => sum + (list?.kind === 'list' ? list.items.length : 0), 0);
  if (items * rows.length <= MAX_ITEMS_IN_ALL) return false;
  const message = `${items} steps, expectations and notes times ${rows.length} rows`;
  problems.at(map, 'limit', message, `at most ${MAX_ITEMS_IN_ALL}: split the scenario`);
  return true;
}
