// The strip chart with its axes: points upwards, the hours of the day to the right.
import { Box, Text } from 'ink';
import { U_PER_POINT } from '../../exposure/dose.js';
import type { Moment } from '../../trace/moment.js';
import { rulerEnd } from '../standing.js';
import { shortLevelWord } from '../words.js';
import { Cell } from './Cell.js';
import { colourOf } from './colours.js';
import { hourLine } from './hour-line.js';
import type { Reel } from './reel.js';
import { sharedLevels } from './ruler.js';
import { type ChartCell, rowOf, stripChart } from './strip-chart.js';

/** "EAV 100 " */
const LABEL_COLUMNS = 8;

interface Props {
  readonly reel: Reel;
  readonly moment: Moment;
  readonly columns: number;
  /** The hours' row included. */
  readonly rows: number;
}

export function StripChart({ reel, moment, columns, rows }: Props) {
  const shape = {
    columns: columns - LABEL_COLUMNS,
    rows: rows - 1,
    untilMs: reel.untilMs,
    top: topOf(moment),
  };
  const levels = sharedLevels(moment.workers.map((worker) => worker.levels)).filter(
    ({ level }) => level === 'action' || level === 'limit',
  );
  const grid = stripChart(
    reel.courses,
    reel.marks,
    levels.map(({ points }) => points),
    moment.atMs,
    shape,
  );
  const labels = new Map([[shape.rows - 1, '0']]);
  for (const { level, points } of levels) labels.set(rowOf(points, shape), `${shortLevelWord(level)} ${points}`);
  return (
    <Box flexDirection="column" width={columns} flexShrink={0}>
      {grid.map((cells, row) => (
        // A row of the chart is nothing but its place.
        // biome-ignore lint/suspicious/noArrayIndexKey: see above
        <Box key={row}>
          <Cell columns={LABEL_COLUMNS - 1} right>
            {labels.get(row) ?? ' '}
          </Cell>
          <Text dimColor>│</Text>
          <Row cells={cells} />
        </Box>
      ))}
      <Box>
        <Cell columns={LABEL_COLUMNS}> </Cell>
        <Text dimColor wrap="truncate-end">
          {hourLine(moment.fromMs, moment.untilMs, shape.columns)}
        </Text>
      </Box>
    </Box>
  );
}

/** The cells of a row, neighbours of one worker as one piece of text. */
function Row({ cells }: { readonly cells: readonly ChartCell[] }) {
  const pieces: { text: string; series: number | null; start: number }[] = [];
  cells.forEach(({ text, series }, start) => {
    const last = pieces.at(-1);
    if (last !== undefined && last.series === series) last.text += text;
    else pieces.push({ text, series, start });
  });
  return (
    <Text wrap="truncate-end">
      {pieces.map(({ text, series, start }) =>
        series === null ? (
          <Text key={start} dimColor>
            {text}
          </Text>
        ) : (
          <Text key={start} color={colourOf(series)}>
            {text}
          </Text>
        ),
      )}
    </Text>
  );
}

/** Points at the upper edge: the limit value, or more where somebody is past it. */
function topOf(moment: Moment): number {
  return Math.max(...moment.workers.map((worker) => Math.max(rulerEnd(worker.levels), worker.dose / U_PER_POINT)), 1);
}
