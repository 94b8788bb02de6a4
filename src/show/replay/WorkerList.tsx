// One row a worker under a common scale of points, and below them the caution.
import { Box, Text } from 'ink';
import type { Moment } from '../../trace/moment.js';
import { caution, shortLevelWord } from '../words.js';
import { Cell } from './Cell.js';
import { BESIDE, type Layout, MARK_COLUMNS, POINTS_COLUMNS } from './layout.js';
import { More } from './More.js';
import { RULER_EXTRA, scaleText, sharedLevels } from './ruler.js';
import { WorkerRow } from './WorkerRow.js';

interface Props {
  readonly moment: Moment;
  readonly marks: readonly string[];
  readonly layout: Layout;
}

export function WorkerList({ moment, marks, layout }: Props) {
  const shown = moment.workers.slice(0, layout.workers);
  return (
    <Box flexDirection="column" flexShrink={0} marginTop={layout.gaps.workers ? 1 : 0}>
      <Head moment={moment} layout={layout} />
      {shown.map((worker, index) => (
        <Box key={worker.name} flexDirection="column" marginTop={layout.apart && index > 0 ? 1 : 0}>
          <WorkerRow moment={moment} worker={worker} index={index} mark={marks[index] ?? '?'} layout={layout} />
        </Box>
      ))}
      <More count={moment.workers.length - shown.length} />
      <Text wrap="truncate-end">{caution(layout.width)}</Text>
    </Box>
  );
}

function Head({ moment, layout }: Pick<Props, 'moment' | 'layout'>) {
  const levels = sharedLevels(moment.workers.map((worker) => worker.levels));
  const scale = (
    <Cell columns={layout.rulerCells + RULER_EXTRA} dim>
      {scaleText(levels, shortLevelWord, layout.rulerCells)}
    </Cell>
  );
  const nameColumns = MARK_COLUMNS + layout.nameColumns;
  if (layout.captions) {
    return (
      <Box>
        <Cell columns={nameColumns + 2}> </Cell>
        {scale}
        <Cell columns={POINTS_COLUMNS} right dim>
          points
        </Cell>
      </Box>
    );
  }
  return (
    <Box>
      <Cell columns={nameColumns} dim>
        worker
      </Cell>
      <Cell columns={BESIDE.points} right dim>
        points
      </Cell>
      <Cell columns={2}> </Cell>
      {scale}
      <Cell columns={BESIDE.exposure} right dim>
        A(8)
      </Cell>
      <Cell columns={BESIDE.action} right dim>
        to EAV
      </Cell>
      <Cell columns={BESIDE.limit} right dim>
        ELV
      </Cell>
    </Box>
  );
}
