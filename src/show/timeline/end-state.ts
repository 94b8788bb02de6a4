// How a day ended: each worker and each tool in a line.
import { wholePoints } from '../../exposure/dose.js';
import type { Moment } from '../../trace/moment.js';
import { openSession, type ToolMoment } from '../../trace/moment-tool.js';
import type { WorkerMoment } from '../../trace/moment-worker.js';
import { lifelessWord } from '../life.js';
import {
  doseOnItsWay,
  isUnrated,
  levelOf,
  pointsText,
  type ReadOut,
  readOut,
  workersExposureText,
} from '../standing.js';
import { levelWord, pointsWord, sumsText } from '../words.js';
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
    pointsWord(pointsText(worker)),
    `A(8) ${workersExposureText(worker)} m/s²`,
    ...levels,
    ...(onItsWay > 0 ? [`${pointsWord(`${onItsWay}`)} on the way`] : []),
    ...readOutText(readOut(moment, worker)),
    ...stateWords(worker),
  ].join(', ');
}

function readOutText({ points, tools }: ReadOut): readonly string[] {
  return points === 0 ? [] : [`${pointsWord(`${points}`)} only in the readout of ${tools.join(', ')}`];
}

function toolText(tool: ToolMoment): string {
  const sessions = tool.sessions.map(
    (session) => `session ${session.number} of ${session.owner}: ${sumsText(session)}`,
  );
  return [
    ...(sessions.length === 0 ? ['never paired'] : sessions),
    ...(openSession(tool) === undefined && sessions.length > 0 ? ['no session open'] : []),
    ...(tool.unclaimed.triggerWindows > 0 ? [`unclaimed: ${sumsText(tool.unclaimed)}`] : []),
    ...(tool.setTenths === 0 ? ['no magnitude set'] : []),
    ...(lifelessWord(tool) === '' ? [] : [lifelessWord(tool)]),
  ].join(', ');
}
