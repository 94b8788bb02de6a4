// What a worker's points come to and what is left of them, in words, under the ruler.
import { Box, Text } from 'ink';
import { wholePoints } from '../../exposure/dose.js';
import type { Moment } from '../../trace/moment.js';
import type { WorkerMoment } from '../../trace/moment-worker.js';
import { doseOnItsWay, isUnrated, levelOf, readOut, workersExposureText } from '../standing.js';
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
  const { points: readOutPoints } = readOut(moment, worker);
  const numbers = [
    `A(8) ${workersExposureText(worker)} m/s²`,
    ...['action', 'limit'].flatMap((level) => leftWords(worker, level)),
    ...(readOutPoints > 0 ? [`${readOutPoints} only in a readout`] : []),
  ];
  const state = stateWords(worker).join(', ');
  const late = onItsWay > 0 ? `${BETWEEN}${onItsWay} on the way` : '';
  return (
    <Box paddingLeft={indent}>
      <Text wrap="truncate-end">
        {numbers.join(BETWEEN)}
        {state === '' ? '' : BETWEEN}
        <Text bold>{state}</Text>
        {late}
      </Text>
    </Box>
  );
}

function leftWords(worker: WorkerMoment, level: string): readonly string[] {
  const standing = levelOf(worker, level);
  if (standing === undefined || isUnrated(worker)) return [];
  return [standing.passed ? `past ${levelWord(level)}` : `${standing.left} to ${levelWord(level)}`];
}
