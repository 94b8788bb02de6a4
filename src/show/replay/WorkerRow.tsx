// A worker: name, ruler, points; what they come to and what is left stands beside the ruler, or below it in words.
import { Box } from 'ink';
import type { Moment } from '../../trace/moment.js';
import type { WorkerMoment } from '../../trace/moment-worker.js';
import { doseOnItsWay, isUnrated, levelOf, shownPointsText, workersExposureText } from '../standing.js';
import { stateWords } from '../worker-state.js';
import { Cell } from './Cell.js';
import { colourOf } from './colours.js';
import { BESIDE, type Layout, MARK_COLUMNS, POINTS_COLUMNS } from './layout.js';
import { RULER_EXTRA, rulerText } from './ruler.js';
import { WorkerCaption } from './WorkerCaption.js';

interface Props {
  readonly moment: Moment;
  readonly worker: WorkerMoment;
  /** Place among the workers, for the colour. */
  readonly index: number;
  readonly mark: string;
  readonly layout: Layout;
}

export function WorkerRow({ moment, worker, index, mark, layout }: Props) {
  const { captions, nameColumns, rulerCells } = layout;
  const points = (
    <Cell columns={captions ? POINTS_COLUMNS : BESIDE.points} right bold>
      {shownPointsText(worker)}
    </Cell>
  );
  return (
    <>
      <Box>
        <Cell columns={MARK_COLUMNS} color={colourOf(index)} bold>
          {mark}
        </Cell>
        <Cell columns={nameColumns} bold>
          {worker.name}
        </Cell>
        {captions ? null : points}
        <Cell columns={2}> </Cell>
        <Cell columns={rulerCells + RULER_EXTRA}>
          {rulerText(worker.dose, doseOnItsWay(moment, worker), worker.levels, rulerCells)}
        </Cell>
        {captions ? points : <Numbers worker={worker} />}
      </Box>
      {captions ? <WorkerCaption moment={moment} worker={worker} indent={MARK_COLUMNS + nameColumns + 2} /> : null}
    </>
  );
}

function Numbers({ worker }: Pick<Props, 'worker'>) {
  return (
    <>
      <Cell columns={BESIDE.exposure} right>
        {workersExposureText(worker)}
      </Cell>
      <Cell columns={BESIDE.action} right>
        {leftTo(worker, 'action')}
      </Cell>
      <Cell columns={BESIDE.limit} right>
        {leftTo(worker, 'limit')}
      </Cell>
      <Cell columns={BESIDE.state} bold>{`  ${firstState(worker)}`}</Cell>
    </>
  );
}

/** The most pressing word on its own: "alert" for "alert: EAV". */
function firstState(worker: WorkerMoment): string {
  return stateWords(worker)[0]?.split(':')[0] ?? '';
}

function leftTo(worker: WorkerMoment, level: string): string {
  const standing = levelOf(worker, level);
  if (standing === undefined || isUnrated(worker)) return '–';
  return standing.passed ? 'past' : `${standing.left}`;
}
