// How a day ended: each worker and each tool in a line.
import { wholePoints } from '../../exposure/dose.js';
import { pointTenths } from '../../exposure/points.js';
import type { Moment } from '../../trace/moment.js';
import { openSession, type ToolMoment } from '../../trace/moment-tool.js';
import type { WorkerMoment } from '../../trace/moment-worker.js';
import { doseOnItsWay, isUnrated, levelOf, pointsText, workersExposureText } from '../standing.js';
import { levelWord, tenthsText } from '../words.js';
import { stateWords } from '../worker-state.js';

/** Lines of name and text, workers first. */
export function endState(moment: Moment): readonly { readonly who: string; readonly text: string }[] {
  return [
    ...moment.workers.map((worker) => ({ who: worker.name, text: workerText(moment, worker) })),
    ...moment.tools.map((tool) => ({ who: tool.name, text: toolText(tool) })),
  ];
}

function workerText(moment: Moment, worker: WorkerMoment): string {
  const onItsWay = wholePoints(doseOnItsWay(moment, worker));
  const levels = ['action', 'limit'].flatMap((level) => {
    const standing = levelOf(worker, level);
    if (standing === undefined || isUnrated(worker)) return [];
    return [standing.passed ? `past the ${levelWord(level)}` : `${standing.left} left to the ${levelWord(level)}`];
  });
  return [
    `${pointsText(worker)} points`,
    `A(8) ${workersExposureText(worker)} m/s²`,
    ...levels,
    ...(onItsWay > 0 ? [`${onItsWay} points on the way`] : []),
    ...stateWords(worker),
  ].join(', ');
}

function toolText(tool: ToolMoment): string {
  const sessions = tool.sessions.map(({ number, owner, dose }) => `session ${number} of ${owner}: ${dosePoints(dose)}`);
  const { dose, triggerWindows } = tool.unclaimed;
  return [
    ...(sessions.length === 0 ? ['never paired'] : sessions),
    ...(openSession(tool) === undefined && sessions.length > 0 ? ['no session open'] : []),
    ...(triggerWindows > 0 ? [`unclaimed: ${dosePoints(dose)}`] : []),
    ...(tool.setTenths === 0 ? ['no magnitude set'] : []),
  ].join(', ');
}

function dosePoints(dose: number): string {
  return `${tenthsText(pointTenths(dose))} points`;
}
