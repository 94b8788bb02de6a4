// When a tool truly ran: marks that a person wrote down, or a trace of the bench, whose first moment is then that of the recording.
import type { TraceEvent } from '../../trace/kinds.js';
import { readTrace } from '../../trace/read.js';
import { type Mark, type MarksRead, readMarks } from '../../vibration/tuning/marks.js';

/** tool: whose runs are taken from a trace; it may be left out where only one tool runs. */
export function readTruth(text: string, tool: string | undefined): MarksRead {
  if (text.startsWith('{')) return fromTrace(text, tool);
  return tool === undefined ? readMarks(text) : { problem: 'marks are of no tool: --tool goes with a trace' };
}

function fromTrace(text: string, tool: string | undefined): MarksRead {
  const trace = readTrace(text);
  if (!trace.ok) return { problem: `line ${trace.problem.line}: ${trace.problem.message}` };
  const tools = [...new Set(trace.events.flatMap((event) => (event.kind === 'hand.start' ? [event.tool] : [])))];
  const known = tools.map((one) => `"${one}"`).join(', ');
  const [only] = tools;
  if (only === undefined) return { problem: 'no tool runs in this trace' };
  if (tool === undefined && tools.length > 1)
    return { problem: `several tools run in this trace, name one with --tool: ${known}` };
  if (tool !== undefined && !tools.includes(tool))
    return { problem: `"${tool}" does not run in this trace; those that do: ${known}` };
  return { marks: marksOf(trace.events, tool ?? only) };
}

/** A run that goes on at the end of the trace lasts until then. */
function marksOf(events: readonly TraceEvent[], tool: string): readonly Mark[] {
  const marks: Mark[] = [];
  let startMs = Number.NaN;
  for (const event of events) {
    if (event.kind === 'hand.start' && event.tool === tool) startMs = event.at;
    if (event.kind !== 'hand.stop' || event.tool !== tool) continue;
    marks.push({ startS: startMs / 1000, stopS: event.at / 1000 });
    startMs = Number.NaN;
  }
  const lastMs = events.at(-1)?.at ?? 0;
  return startMs < lastMs ? [...marks, { startS: startMs / 1000, stopS: lastMs / 1000 }] : marks;
}
