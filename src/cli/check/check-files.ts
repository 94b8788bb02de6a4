// Runs and judges scenario files, one after the other.
import { Bench } from '../../bench/bench.js';
import { judge } from '../../judge/judge.js';
import type { JudgeResult } from '../../judge/verdict.js';
import { readText } from '../../scenario/file.js';
import type { Problem } from '../../scenario/problem.js';
import { readScenario } from '../../scenario/read.js';
import type { ScenarioRun } from '../../scenario/scenario.js';
import { hashTrace, type TraceHashes } from '../../trace/hash.js';
import type { EventOf, TraceEvent } from '../../trace/kinds.js';
import { scenarioWords } from '../scenario/words.js';
import { type WaitingFault, waitingFaults } from './unmet.js';

export interface CheckedRun {
  readonly run: ScenarioRun;
  readonly result: JudgeResult;
  /** Number of events in the trace, and its hashes. */
  readonly events: number;
  readonly hashes: TraceHashes;
  /** Steps of the day that could not happen. */
  readonly nothing: readonly EventOf<'hand.nothing'>[];
  /** Faults of the day that come only with what a device does, whether they did or not. */
  readonly waiting: readonly WaitingFault[];
}

export interface CheckedFile {
  readonly file: string;
  readonly title: string;
  /** The text of the file, for the lines that verdicts quote. */
  readonly source: string;
  /** Why the file could not be run; empty where it was. */
  readonly problems: readonly Problem[];
  readonly runs: readonly CheckedRun[];
}

export function* checkFiles(files: readonly string[]): Iterable<CheckedFile> {
  const words = scenarioWords();
  for (const file of files) {
    const source = readText(file);
    if (typeof source !== 'string') {
      yield { file, title: '', source: '', problems: [source], runs: [] };
      continue;
    }
    const reading = readScenario(source, file, words);
    if (!reading.ok) yield { file, title: '', source, problems: reading.problems, runs: [] };
    else {
      const { title, runs, whatIfRuns } = reading.scenario;
      yield { file, title, source, problems: [], runs: [...runs, ...whatIfRuns].map(checkRun) };
    }
  }
}

function checkRun(run: ScenarioRun): CheckedRun {
  const bench = Bench.open(run.day);
  bench.run();
  const { events } = bench;
  const result = judge(events, run.expectations);
  return {
    run,
    result,
    events: events.length,
    hashes: hashTrace(events),
    nothing: events.filter(isNothing),
    waiting: waitingFaults(events, run),
  };
}

function isNothing(event: TraceEvent): event is EventOf<'hand.nothing'> {
  return event.kind === 'hand.nothing';
}
