// What a worker's points come to and what is left of them, in words, under the ruler.
import { Box, Text } from 'ink';
import { wholePoints } from '../../exposure/dose.js';
import type { Moment } from '../../trace/moment.js';
import type { WorkerMoment } from '../../trace/moment-worker.js';
import { doseOnItsWay, isUnrated, levelOf, readOutWords, workersExposureText } from '../standing.js';
import { levelWord } from '../words.js';
import { stateWords } from '../worker-state.js';

const BETWEEN = '  ';

interface Props {
  readonly moment: Moment;
  readonly worker: WorkerMoment;
  /** Columns to the left edge of the ruler. */
  readonly indent: number;
}

export function WorkerCaption({ moment, worker, indent }: Props) {
  const onItsWay = wholePoints(doseOnItsWay(moment, worker));
  const numbers = [
    `A(8) ${workersExposureText(worker)} m/s²`,
    ...['action', 'limit'].flatMap((level) => leftWords(worker, level)),
  ];
  const state = stateWords(worker).join(', ');
  const late = [
    ...(onItsWay > 0 ? [`${onItsWay} on the way`] : []),
    ...readOutWords(moment, worker, (points) => points),
  ];
  return (
    <Box paddingLeft={indent}>
      <Text wrap="truncate-end">
        {numbers.join(BETWEEN)}
        {state === '' ? '' : BETWEEN}
        <Text bold>{state}</Text>
        {late.map((words) => BETWEEN + words).join('')}
      </Text>
    </Box>
  );
}

function leftWords(worker: WorkerMoment, level: string): readonly string[] {
  const standing = levelOf(worker, level);
  if (standing === undefined || isUnrated(worker)) return [];
  return [standing.passed ? `past ${levelWord(level)}` : `${standing.left} to ${levelWord(level)}`];
}
