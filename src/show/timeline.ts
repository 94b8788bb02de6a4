// A day as plain text, one line for each thing that matters: what is printed where there is no terminal to replay it in.
import { regimeById } from '../exposure/regimes.js';
import type { Note } from '../scenario/scenario.js';
import type { TraceEvent } from '../trace/kinds.js';
import { BEFORE, type Moment, momentAfter } from '../trace/moment.js';
import { lifelessWord } from './life.js';
import type { ShownDay } from './shown-day.js';
import { pointsText, workersExposureText } from './standing.js';
import { endState } from './timeline/end-state.js';
import { acknowledges, happeningText } from './timeline/happenings.js';
import type { TimelineLine } from './timeline/line.js';
import { RecordWatch } from './timeline/records.js';
import { runLines } from './timeline/runs.js';
import { hourMinuteText, timeText } from './times.js';
import { caution } from './words.js';

const HALF_HOUR_MS = 30 * 60_000;
/** Wide enough for every sentence. */
const WIDE = 120;

/** The whole timeline, lines ended by "\n". */
export function plainTimeline({ title, events, notes }: ShownDay): string {
  const { lines, end } = told(events);
  const ordered = [...lines, ...runLines(events, end.fromMs, end.untilMs), ...notes.map(noteLine)];
  ordered.sort((a, b) => a.atMs - b.atMs);
  const names = [...end.workers, ...end.tools].map(({ name }) => name);
  const column = Math.max(...[...names, 'points', 'note'].map((name) => [...name].length));
  const clock = (atMs: number) => hourMinuteText(end.fromMs, atMs);
  return [
    title,
    `${clock(0)} to ${clock(end.untilMs)}. Exposure regime: ${regimeById(end.regime)?.title ?? end.regime}`,
    '',
    ...ordered.map(({ atMs, who, text }) => `${timeText(end.fromMs, atMs)}  ${who.padEnd(column)}  ${text}`),
    '',
    `At the end of the day, ${timeText(end.fromMs, end.untilMs)}:`,
    ...endState(end).map(({ who, text }) => `${who.padEnd(column)}  ${text}`),
    '',
    caution(WIDE),
    '',
  ].join('\n');
}

/** What the events tell in order, the points of each half hour among them, and the moment at the end. */
function told(events: readonly TraceEvent[]): { readonly lines: readonly TimelineLine[]; readonly end: Moment } {
  const lines: TimelineLine[] = [];
  const records = new RecordWatch(events);
  let moment = BEFORE;
  let dueMs = 0;
  for (const event of events) {
    const before = moment;
    if (event.at > 0) dueMs = tellHalfHours(lines, before, dueMs, event.at);
    moment = momentAfter(before, event);
    const record = records.see(event);
    const text = acknowledges(event, before, moment) ? 'acknowledges' : happeningText(event, before, moment);
    if (record !== undefined) lines.push({ atMs: event.at, who: event.by, text: record });
    if (text !== undefined) lines.push({ atMs: event.at, who: event.by, text });
  }
  tellHalfHours(lines, moment, dueMs, moment.untilMs);
  return { lines, end: moment };
}

/** Adds the points at every half hour of the clock from dueMs (0: the first after the start) up to before untilMs. */
function tellHalfHours(lines: TimelineLine[], moment: Moment, dueMs: number, untilMs: number): number {
  let atMs = dueMs === 0 ? HALF_HOUR_MS - (moment.fromMs % HALF_HOUR_MS) : dueMs;
  for (; atMs < untilMs; atMs += HALF_HOUR_MS) {
    const points = moment.workers.map((worker) => {
      const state = lifelessWord(worker);
      return `${worker.name} ${pointsText(worker)} (A(8) ${workersExposureText(worker)}${state === '' ? '' : `, ${state}`})`;
    });
    lines.push({ atMs, who: 'points', text: points.join('   ') });
  }
  return atMs;
}

function noteLine({ atMs, ask, say }: Note): TimelineLine {
  return { atMs, who: 'note', text: ask === null ? say : `${ask} ${say}` };
}
