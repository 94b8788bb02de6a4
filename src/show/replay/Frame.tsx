// A whole frame of the replay: a function of the day, the moment, the player's state and the terminal's size.
import { Box, Text } from 'ink';
import { Header } from './Header.js';
import { helpText } from './keys.js';
import { Log } from './Log.js';
import { LEAST_COLUMNS, LEAST_ROWS, layOut, MARGIN } from './layout.js';
import { NotePanel, noteRows } from './NotePanel.js';
import type { Player } from './player.js';
import type { Reel } from './reel.js';
import { StripChart } from './StripChart.js';
import { ToolList } from './ToolList.js';
import { WorkerList } from './WorkerList.js';

interface Props {
  readonly reel: Reel;
  readonly player: Player;
  /** Size of the terminal; the frame stays one row below it. */
  readonly columns: number;
  readonly rows: number;
}

export function Frame({ reel, player, columns, rows }: Props) {
  if (columns < LEAST_COLUMNS || rows < LEAST_ROWS) return <TooSmall columns={columns} rows={rows} />;
  const moment = reel.cursor.at(player.atMs);
  const layout = layOut({
    columns,
    rows,
    workerNames: moment.workers.map((one) => one.name),
    toolNames: moment.tools.map((one) => one.name),
    noteRows: noteRows(reel.notes, columns - 2 * MARGIN),
    chartAlone: player.chartAlone,
  });
  return (
    <Box flexDirection="column" width={columns} height={layout.height} paddingX={MARGIN} overflow="hidden">
      <Header title={reel.title} moment={moment} player={player} columns={layout.width} />
      {layout.noteRows > 0 && <NotePanel notes={reel.notes} moment={moment} rows={layout.noteRows} />}
      <WorkerList moment={moment} marks={reel.marks} layout={layout} />
      <ToolList moment={moment} marks={reel.marks} layout={layout} />
      <Box flexGrow={1} justifyContent="space-between" overflow="hidden" marginTop={layout.gaps.lower ? 1 : 0}>
        {layout.chartColumns > 0 && (
          <StripChart reel={reel} moment={moment} columns={layout.chartColumns} rows={layout.lowerRows} />
        )}
        <Log moment={moment} troubles={reel.troubles} columns={layout.logColumns} rows={layout.lowerRows} />
      </Box>
      <Text dimColor wrap="truncate-end">
        {helpText(player.playing, layout.width)}
      </Text>
    </Box>
  );
}

function TooSmall({ columns, rows }: Pick<Props, 'columns' | 'rows'>) {
  return (
    <Box width={columns} height={Math.max(1, rows - 1)} overflow="hidden">
      <Text>{`The replay needs ${LEAST_COLUMNS} × ${LEAST_ROWS} characters; here are ${columns} × ${rows}. q quits.`}</Text>
    </Box>
  );
}
