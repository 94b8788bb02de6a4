// Where a worker stands: points used, what they come to as A(8), and what is left to each level.
import { doseOfPoints, wholePoints } from '../exposure/dose.js';
import { exposureOfPoints, pointsOfDose } from '../exposure/points.js';
import { hasPassed } from '../exposure/regimes.js';
import type { LevelField } from '../trace/kinds.js';
import type { Moment } from '../trace/moment.js';
import type { SessionMoment, ToolMoment } from '../trace/moment-tool.js';
import type { WorkerMoment } from '../trace/moment-worker.js';
import { lifelessWord } from './life.js';
import { WINDOW_MS } from './words.js';

export interface LevelStanding {
  readonly level: string;
  readonly points: number;
  readonly passed: boolean;
  /** Whole points to it, rounded down so that nobody is promised more than there is; 0 where it is passed. */
  readonly left: number;
}

/** Whole points of the worker's shift, truncated as on the wearable (ACC-3). */
export function pointsUsed(worker: WorkerMoment): number {
  return wholePoints(worker.dose);
}

/** Ms of trigger time of the worker's shift without a magnitude: no points can be made of it (MAG-6). */
export function unratedMs(worker: WorkerMoment): number {
  const entries = worker.ledger.filter((entry) => entry.shift === worker.shift?.number);
  return entries.reduce((sum, entry) => sum + entry.unratedWindows, 0) * WINDOW_MS;
}

/** No whole point and some time without a magnitude: as on the wearable, never shown as zero points (MAG-6). */
export function isUnrated(worker: WorkerMoment): boolean {
  return wholePoints(worker.dose) === 0 && unratedMs(worker) > 0;
}

/** Whole points, or a dash where only unrated time is known. */
export function pointsText(worker: WorkerMoment): string {
  return isUnrated(worker) ? '–' : `${pointsUsed(worker)}`;
}

/** The same as a display of this moment: in brackets where the wearable shows nothing itself. */
export function shownPointsText(worker: WorkerMoment): string {
  return lifelessWord(worker) === '' ? pointsText(worker) : `(${pointsText(worker)})`;
}

/** A(8) in m/s² with two decimals, rounded for showing only; a dash where only unrated time is known. */
export function workersExposureText(worker: WorkerMoment): string {
  return isUnrated(worker) ? '–' : exposureText(worker.dose);
}

/** A(8) in m/s² with two decimals, rounded for showing only. */
export function exposureText(dose: number): string {
  return exposureOfPoints(pointsOfDose(dose)).toFixed(2);
}

/** The worker's levels in rising order, each with what is left to it. */
export function levelsOf(worker: WorkerMoment): readonly LevelStanding[] {
  return [...worker.levels]
    .sort((a, b) => a.points - b.points)
    .map(({ level, points, compare }) => {
      const passed = hasPassed(worker.dose, points, compare);
      return { level, points, passed, left: wholePoints(Math.max(0, doseOfPoints(points) - worker.dose)) };
    });
}

/** Standing to one level by name; undefined where the worker has none of that name. */
export function levelOf(worker: WorkerMoment, level: string): LevelStanding | undefined {
  return levelsOf(worker).find((one) => one.level === level);
}

/** Points at which a ruler ends: the limit value, or the highest level there is. */
export function rulerEnd(levels: readonly LevelField[]): number {
  const limit = levels.find((one) => one.level === 'limit');
  return limit?.points ?? Math.max(1, ...levels.map((one) => one.points));
}

/** Dose in u that counters have counted for the worker's shift and that the wearable does not have yet. */
export function doseOnItsWay(moment: Moment, worker: WorkerMoment): number {
  return moment.tools
    .map((tool) => missingDose(tool, worker, ({ state }) => state !== 'read out'))
    .reduce((sum, dose) => sum + dose, 0);
}

export interface ReadOut {
  readonly points: number;
  /** The tools whose counters handed it over. */
  readonly tools: readonly string[];
}

/** Whole points that were read out of counters (PAI-7) and never reach the wearable of the worker's shift. */
export function readOut(moment: Moment, worker: WorkerMoment): ReadOut {
  const read = moment.tools
    .map((tool) => ({ tool, dose: missingDose(tool, worker, ({ state }) => state === 'read out') }))
    .filter(({ dose }) => dose > 0);
  const points = wholePoints(read.reduce((sum, { dose }) => sum + dose, 0));
  return { points, tools: read.map(({ tool }) => tool.name) };
}

/** Dose in u that the counter has in sessions of this sort for the worker's shift, and that the wearable does not have. */
function missingDose(tool: ToolMoment, worker: WorkerMoment, counts: (session: SessionMoment) => boolean): number {
  let dose = 0;
  for (const session of tool.sessions.filter((one) => one.owner === worker.name && counts(one))) {
    const isIt = (one: { counter: string; session: number }) =>
      one.counter === tool.name && one.session === session.number;
    const key = worker.keys.find(isIt);
    if (key === undefined || key.shift !== worker.shift?.number) continue;
    dose += Math.max(0, session.dose - (worker.ledger.find(isIt)?.dose ?? 0));
  }
  return dose;
}
