// Where a tool stands: who runs it, for whom it counts, what it gave each worker, how long it may still run.
import { timeToPointsMs } from '../exposure/time-left.js';
import type { Moment } from '../trace/moment.js';
import { openSession, type ToolMoment } from '../trace/moment-tool.js';
import type { WorkerMoment } from '../trace/moment-worker.js';
import { lifelessWord } from './life.js';
import { levelsOf } from './standing.js';
import { minutesText, shortLevelWord, tenthsText } from './words.js';

/** "Edda runs it", "runs, laid down", "in a van", "away", "at rest". */
export function runningText(tool: ToolMoment): string {
  if (tool.running !== null) return tool.running.held ? `${tool.running.by} runs it` : 'runs, laid down';
  if (tool.carried) return 'in a van';
  return tool.place !== 0 ? 'away' : 'at rest';
}

/** The magnitude that the counter is set to, and, where it differs, what the tool truly makes. */
export function magnitudeText(tool: ToolMoment): string {
  if (tool.setTenths === 0) return 'unset';
  if (tool.setTenths === tool.trueTenths) return tenthsText(tool.setTenths);
  return `${tenthsText(tool.setTenths)}≠${tenthsText(tool.trueTenths)}`;
}

/** Name of the worker whose session is open; undefined where the tool counts for nobody. */
export function ownerOf(tool: ToolMoment): string | undefined {
  return openSession(tool)?.owner;
}

/**
 * "12 min to EAV": running time on this tool, at the magnitude it is set to, to its owner's next level; "no power" or "asleep"
 * where its counter counts nothing.
 */
export function leftText(moment: Moment, tool: ToolMoment): string {
  const lifeless = lifelessWord(tool);
  if (lifeless !== '') return lifeless;
  const owner = moment.workers.find((one) => one.name === ownerOf(tool));
  if (owner === undefined) return '–';
  if (tool.setTenths === 0) return 'not rated';
  const next = levelsOf(owner).find((one) => !one.passed);
  if (next === undefined) return 'none, stop';
  const ms = timeToPointsMs(tool.setTenths, next.points, owner.dose);
  return `${minutesText(ms)} to ${shortLevelWord(next.level)}`;
}

/** Percent of the points of the worker's shift that the tool gave, rounded; null where it gave none. */
export function shareOf(worker: WorkerMoment, tool: string): number | null {
  let dose = 0;
  for (const entry of worker.ledger) {
    if (entry.counter === tool && entry.shift === worker.shift?.number) dose += entry.dose;
  }
  return dose === 0 || worker.dose === 0 ? null : Math.round((100 * dose) / worker.dose);
}
