// The runs of one row of a scenario: the day as written, and the day under each what-if.
import type { z } from 'zod';
import { readTools, readWorkers } from './cast.js';
import { mapsOf } from './collections.js';
import type { Day } from './day.js';
import { readExpectation } from './expect/read-expectation.js';
import type { Expectation } from './expectation.js';
import { MAX_SPAN_MS } from './fields/clock.js';
import { formatDuration } from './fields/duration.js';
import { readSome } from './fields/read-fields.js';
import { MAX_ITEMS, MAX_SAMPLED_MS } from './limits.js';
import { Timeline } from './moment.js';
import { notesOf, readNotes } from './notes.js';
import type { Problems } from './problems.js';
import { sampledMs } from './sampled.js';
import type { ScenarioRun } from './scenario.js';
import { Scope } from './scope.js';
import type { Source } from './source.js';
import { labelsOf, readSteps } from './steps.js';
import { DEFAULT_SEED, readFrame, TOP } from './top.js';
import type { Draft } from './whatif/change.js';
import { applyWhatIfs, whatIfNames } from './whatif/what-ifs.js';
import type { Words } from './words.js';
import { entryOf, type MapNode, type Node } from './yaml/node.js';

export interface RowRuns {
  readonly title: string;
  readonly covers: readonly string[];
  readonly asWritten: ScenarioRun;
  readonly whatIfs: readonly ScenarioRun[];
}

/** What stands in for the frame of a day whose ends could not be read: nothing lies outside. */
const ANY_FRAME = { fromMs: 0, untilMs: MAX_SPAN_MS };

type Top = Partial<z.output<typeof TOP>>;

/** Reads the file's map with the row's values put in; what could not be read is reported, and the runs are then of no use. */
export function readRow(map: MapNode, row: string, words: Words, source: Source, problems: Problems): RowRuns {
  const scope = scopeOf(map, words, problems);
  const top: Top = readSome(TOP, map, { what: 'a scenario', span: { start: 0, end: 1 } }, scope).values;
  const frame = readFrame(top.from, top.until, problems) ?? ANY_FRAME;
  const tools = top.tools === undefined ? [] : readTools(top.tools.value, problems);
  const workers = top.workers === undefined ? [] : readWorkers(top.workers.value, tools, problems);
  const events = top.day === undefined ? [] : readSteps(top.day.value, frame, scope);
  const drafts = new Map<string | null, Draft>([[null, { tools, events }]]);
  for (const [name, draft] of applyWhatIfs(top['what-if']?.value, { tools, events }, frame, scope)) {
    drafts.set(name, draft);
  }
  if (top.day !== undefined && [...drafts.values()].some((draft) => isSampledTooLong(draft, frame.untilMs))) {
    const refused = `vibration is made from samples for more than ${formatDuration(MAX_SAMPLED_MS)}`;
    problems.at(top.day.node, 'limit', refused, 'tools without "samples", or shorter runs and drives');
  }
  const frameOfDay = { ...frame, seed: top.seed?.value ?? DEFAULT_SEED, regime: top.regime?.value ?? '' };
  const timelines = new Map([...drafts].map(([name, draft]) => [name, new Timeline(frame, draft.events)]));
  const expectations = readExpectations(top.expect?.value, timelines, { scope, words, source });
  const written = readNotes(top.notes?.value, scope);
  const runs = [...drafts].map(([whatIf, draft]): ScenarioRun => {
    const day: Day = { ...frameOfDay, tools: draft.tools, workers, events: draft.events.map(({ event }) => event) };
    const notes = notesOf(written, new Timeline(frame, draft.events), problems);
    const offsets = draft.events.map(({ offset }) => offset);
    return { row, whatIf, day, offsets, expectations: expectations.get(whatIf) ?? [], notes };
  });
  const [asWritten, ...whatIfs] = runs as [ScenarioRun, ...ScenarioRun[]];
  return { title: top.title?.value ?? '', covers: top.covers?.value ?? [], asWritten, whatIfs };
}

function isSampledTooLong({ tools, events }: Draft, untilMs: number): boolean {
  return (
    sampledMs(
      tools,
      events.map(({ event }) => event),
      untilMs,
    ) > MAX_SAMPLED_MS
  );
}

/** The names that the file gives, taken from its tree, so that one that is wrong elsewhere is known all the same. */
function scopeOf(map: MapNode, words: Words, problems: Problems): Scope {
  const tool = keysOf(entryOf(map, 'tools')?.value);
  const worker = keysOf(entryOf(map, 'workers')?.value);
  const day = entryOf(map, 'day')?.value;
  return new Scope(problems, {
    ...(tool === null ? {} : { tool }),
    ...(worker === null ? {} : { worker }),
    ...(tool === null || worker === null ? {} : { 'tool or worker': new Set([...tool, ...worker]) }),
    ...(day === undefined ? {} : { label: labelsOf(day) }),
    'what-if': new Set(whatIfNames(entryOf(map, 'what-if')?.value)),
    requirement: new Set(words.requirements),
    event: new Set(words.kinds),
    level: new Set(words.levels),
    frame: new Set(words.frames),
    refusal: new Set(words.refusals),
  });
}

function keysOf(node: Node | undefined): ReadonlySet<string> | null {
  return node?.kind === 'map' ? new Set(node.entries.map(({ key }) => key)) : null;
}

/** The expectations of the day as written (null) and of each what-if that one names. */
function readExpectations(
  node: Node | undefined,
  timelines: ReadonlyMap<string | null, Timeline>,
  around: { readonly scope: Scope; readonly words: Words; readonly source: Source },
): ReadonlyMap<string | null, readonly Expectation[]> {
  const expectations = new Map<string | null, Expectation[]>();
  for (const map of mapsOf(node, 'an expectation', MAX_ITEMS, around.scope.problems)) {
    const named = entryOf(map, 'what-if')?.value;
    const name = named?.kind === 'scalar' && timelines.has(named.text) ? named.text : null;
    const timeline = timelines.get(name);
    if (timeline === undefined) throw new Error('the day as written has a timeline');
    const expectation = readExpectation(map, { ...around, timeline });
    if (expectation === null) continue;
    const known = expectations.get(name);
    if (known === undefined) expectations.set(name, [expectation]);
    else known.push(expectation);
  }
  return expectations;
}
