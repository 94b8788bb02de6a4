// Writes a day as a scenario file that reads back as the same day: one step a line, always the same text for the same day.
import type { Day, DayEvent, ToolSpec, WorkerSpec } from './day.js';
import { formatClock } from './fields/clock.js';
import { formatTenths } from './fields/number.js';
import { EVENT_VERBS } from './verbs/verbs.js';
import { flowMap, flowText } from './yaml/flow.js';

export interface Heading {
  /** One line of printable text. */
  readonly title: string;
}

/** The text ends with a line end. */
export function writeScenario(day: Day, { title }: Heading): string {
  const lines = [
    `title: ${flowText(title)}`,
    `seed: ${day.seed}`,
    `regime: ${flowText(day.regime)}`,
    `from: ${formatClock(0, day.fromMs)}`,
    `until: ${formatClock(day.untilMs, day.fromMs)}`,
    'tools:',
    ...day.tools.map((tool) => `  ${flowText(tool.name)}: ${writeTool(tool)}`),
    'workers:',
    ...day.workers.map((worker) => `  ${flowText(worker.name)}: ${writeWorker(worker)}`),
    day.events.length === 0 ? 'day: []' : 'day:',
    ...day.events.map((event) => `  - ${writeEvent(event, day.fromMs)}`),
  ];
  return `${lines.join('\n')}\n`;
}

function writeTool({ hand, samples, magnitudeTenths, keyedTenths }: ToolSpec): string {
  return flowMap([
    ['hand', hand],
    ...(samples === undefined ? [] : ([['samples', samples]] as const)),
    ['magnitude', formatTenths(magnitudeTenths)],
    ...(keyedTenths === null ? [] : ([['keyed', formatTenths(keyedTenths)]] as const)),
  ]);
}

function writeWorker({ noticePoints, sitePoints }: WorkerSpec): string {
  return flowMap([
    ['notice', `${noticePoints}`],
    ...(sitePoints === null ? [] : ([['site', `${sitePoints}`]] as const)),
  ]);
}

function writeEvent(event: DayEvent, fromMs: number): string {
  const { write, word } = EVENT_VERBS[event.do];
  if (write === null) throw new Error(`${word} is no verb of an event`);
  return flowMap([['at', formatClock(event.atMs, fromMs)], ...write(event as never)]);
}
